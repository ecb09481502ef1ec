"""What work does in the second interpreter: primer as cells of 10 mm, strips, sheets, flame."""

from itertools import pairwise

from second_rules import HOLDING

CELL = 10


def clock(text):
    """Minutes of the day from "HH:MM"."""
    return int(text[:2]) * 60 + int(text[3:])


class Work:
    """The beginnings and ends of work; named after the decision's ``do``."""

    def raining(self, at):
        return any(a <= at < b for a, b in self.rain)

    def begin_rain(self):
        self.rained, self.dried, self.notices = self.now, {}, self.notices + 1
        pieces = []
        for coat in self.coats:
            cuts = {
                e
                for s in self.sheets.values()
                for w, *ends in s["on"]
                if w == coat["wall"]
                for e in ends
            }
            cuts = sorted(
                {coat["from"], coat["to"]} | {c for c in cuts if coat["from"] < c < coat["to"]}
            )
            pieces += [self.piece(coat, a, b) for a, b in pairwise(cuts)]
        self.coats = pieces
        for wall, cells in self.cells.items():
            for i, cell in enumerate(cells):
                if cell and not self.covered(wall, i * CELL):
                    cell["spoilt"] = True

    def piece(self, coat, start, end):
        """A part of a coat, with the minute at which the roller came to its left end."""
        later = (start - coat["from"]) * coat["per"] / 1000
        return coat | {"from": start, "to": end, "at": coat["at"] + later}

    def gas_out(self):
        who = self.people[self.flames["torch"]["who"]]
        self.put_out("torch")
        self.notices += 1
        doing = who["task"]["do"] if who["task"] else ""
        if doing == "light" or (doing in HOLDING - {"put out"} and who["until"] > self.now):
            who.update(task=None, until=None, row=[])
        self.look()

    def put_out(self, tool):
        del self.flames[tool]
        self.last_flame = self.now

    def begin_prime(self, t):
        wall, per, wet = t["wall"], self.job["minutes"]["prime a metre"], self.raining(self.now)
        number = 1 + max((c["id"] for c in self.coats), default=0)
        damp = sum(self.damp(wall, at) for at in range(t["from"], t["to"], CELL))
        for at in range(t["from"], t["to"], CELL):
            come = self.now + per * (at - t["from"]) / 1000
            self.cells[wall][at // CELL] = {"t": come, "spoilt": wet}
        coat = {
            "id": number,
            "wall": wall,
            "from": t["from"],
            "to": t["to"],
            "at": self.now,
            "per": per,
        }
        self.coats.append(coat | {"damp": damp, "rain": wet})
        self.can = self.can_stood = self.point(wall, t["to"], 500)

    def end_prime(self, *_):
        self.can = self.can_stood if self.can is None else self.can

    def damp(self, wall, at):
        dried = any(a <= at < b for a, b in self.dried.get(wall, []))
        own = any(d["from_mm"] <= at < d["to_mm"] and self.now < clock(d["dry_at"])
                  for d in self.walls[wall].get("damp", []))  # fmt: skip
        return (own or self.rained is not None) and not dried

    def end_dry(self, t, person):
        if self.rained is None or self.rained < person["from"]:
            self.dried.setdefault(t["wall"], []).append((t["from"], t["to"]))

    def end_set_out(self, t, _):
        self.marks[t["wall"]] = (t["laps"], t["lap_mm"])

    def end_snap(self, t, _):
        self.lines[t["wall"]] = t["distance"]

    def end_cut(self, t, _):
        self.strips += [{"cut": self.now, "melted": False} for _ in range(t["strips"])]

    def goes_under(self, t):
        """Whether a sheet beside this one is still to come over it."""
        if t["do"] == "lay corner":
            left, right = self.order[t["corner"]], self.order[t["corner"] + 1]
            beside = [
                f"{left}:{max(0, len(self.due(left)) - 1) if left in self.marks else 0}",
                f"{right}:0",
            ]
            return t["number"] == 2 and any(name not in self.sheets for name in beside)
        i, k, last = self.order.index(t["wall"]), t["sheet"], len(self.due(t["wall"])) - 1
        left = f"{t['wall']}:{k - 1}" if k else f"corner-{i - 1}:2" if i else None
        right = f"{t['wall']}:{k + 1}" if k < last else None
        if k == last and i < len(self.corners):
            right = f"corner-{i}:2"
        return any(name and name not in self.sheets for name in (left, right))

    def begin_lay(self, t):
        under = self.goes_under(t)
        strip = min(self.strips, key=lambda s: (s["melted"] != under, s["cut"]))
        self.strips.remove(strip)
        bare, wait, spoilt = 0, 0, False
        for wall, start, end in self.place(t):
            for at in range(start, end, CELL):
                if self.covered(wall, at):
                    continue
                cell = self.cells[wall][at // CELL]
                bare += cell is None
                if cell:
                    end_of_cell = cell["t"] + self.job["minutes"]["prime a metre"] * CELL / 1000
                    wait = max(wait, end_of_cell + self.job["paper"]["dry_min"] - self.now)
                    spoilt |= cell["spoilt"]
        since = None if self.rain_over is None else self.now - self.rain_over
        t["ground"] = {"bare": bare, "undried": wait > 1e-9, "spoilt": spoilt, "since": since,
                       "relaxed": self.now - strip["cut"], "rain": self.raining(self.now),
                       "melted": strip["melted"]}  # fmt: skip
        if t["do"] == "lay corner":
            self.corners[t["corner"]]["fill"] = False

    begin_lay_corner = begin_lay

    def end_lay(self, t, person):
        on = self.place(t)
        cells = [
            self.cells[w][a // CELL]
            for w, s, e in on
            for a in range(s, e, CELL)
            if not self.covered(w, a)
        ]
        ages = [self.now - cell["t"] for cell in cells if cell]
        legs = [self.lines[w] - self.walls[w].get("cant_mm", 0) if w in self.lines
                else self.job.get("by_eye_mm", 60) for w, _, _ in on]  # fmt: skip
        ground = t.pop("ground")
        ground["rain"] |= self.raining(self.now - 1)
        self.sheets[self.name(t)] = ground | {
            "on": on, "down": self.now, "rolled": False, "age": round(max(ages, default=0), 3),
            "leg": min(legs),
            "wrinkled": t.get("half") == "bottom",
        }  # fmt: skip
        self.film = True
        self.sealed -= {w for w, _, _ in on}
        new = self.sheets[self.name(t)]
        laps = [(w, lap) for w, _, _ in on for lap in self.laps(w)]
        self.welds -= {f"{w}:{lap[0]}" for w, lap in laps if new is lap[3] or new is lap[4]}
        if t.get("number") == 2:
            self.corners[t["corner"]]["before"] = self.corners[t["corner"]]["trim"]

    end_lay_corner = end_lay

    def end_roll(self, t, _):
        self.sheets[self.name(t)]["rolled"] = True
        if "corner" in t:
            self.corners[t["corner"]]["fill"] = False
            self.sheets[f"corner-{t['corner']}:1"]["rolled"] |= t["number"] == 2

    end_roll_corner = end_roll

    def end_trim(self, t, _):
        self.corners[t["corner"]]["trim"] = True

    def end_fill(self, t, _):
        self.corners[t["corner"]]["fill"] = True

    def end_light(self, t, _):
        at = self.point(t["wall"], t["at"], t["off"])
        self.flames[t.get("tool", "torch")] = {"who": t["who"], "off": t["off"], "at": at}

    def end_preheat(self, t, _):
        for strip in [s for s in self.strips if not s["melted"]][: t["strips"]]:
            strip["melted"] = True

    def begin_weld(self, t):
        _, a, b, _, _ = next(x for x in self.laps(t["wall"]) if x[0] == t["lap"])
        self.flames["torch"].update(at=self.point(t["wall"], (a + b) // 2), off=0)

    def end_weld(self, t, _):
        self.welds.add(f"{t['wall']}:{t['lap']}")

    def begin_gusset(self, t):
        self.flames["torch"].update(at=self.point(self.order[t["corner"] + 1], 0), off=0)

    def end_gusset(self, t, _):
        self.corners[t["corner"]]["reach"] = t["reach"]

    def begin_put_out(self, t):
        self.put_out(t.get("tool", "torch"))

    def end_watch(self, _, person):
        person["watch"] = True

    def end_open_permit(self, *_):
        self.permit = "open"

    def end_close_permit(self, *_):
        self.permit = "closed"

    def end_close_cans(self, *_):
        self.can = None

    def end_bag_film(self, *_):
        self.film = False

    def end_last_look(self, *_):
        self.looked = self.now

    def end_seal(self, t, _):
        self.sealed.add(t["wall"])
