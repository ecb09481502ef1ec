"""A second, small interpreter of installations: minute by minute, on plain dicts.

It shares no code with the program: its own clock (one minute after the other, where the program
jumps from event to event), its own plan (complex numbers), primer as cells of 10 mm, and its own
reading of the rules. It knows the work of the three small jobs and little else; decisions that
nature would refuse must not be given to it. Weather is fair but for rain.
"""

import math
from itertools import pairwise

from second_rules import wrong_now
from second_work import CELL, Work, clock

NAMES = {"lay corner": "corner sheet", "roll corner": "roll"}


class Second(Work):
    """One installation; ``found`` lists (subject, place, minute)."""

    def __init__(self, job):
        self.job, self.now = job, clock(job["start"])
        self.walls = {wall["id"]: wall for wall in job["walls"]}
        self.order = list(self.walls)
        self.people = {
            p["id"]: p | {"task": None, "until": None, "row": [], "watch": False, "from": 0}
            for p in job["crew"]
        }
        self.cells = {w["id"]: [None] * (w["length_mm"] // CELL) for w in job["walls"]}
        self.coats, self.dried, self.strips = [], {}, []
        self.marks, self.lines, self.sheets, self.welds = {}, {}, {}, set()
        self.corners = [{"trim": False, "before": False, "fill": False, "reach": None}
                        for _ in job.get("corners", [])]  # fmt: skip
        self.flames, self.gas = {}, job["gas"]["minutes"]
        self.permit, self.can, self.film = "none", None, False
        self.last_flame = self.looked = self.rained = self.rain_over = self.ended = None
        self.sealed, self.standing, self.found = set(), set(), []
        self.notices = 0
        self.rain = [tuple(map(clock, pair)) for pair in job["weather"].get("rain", [])]

    # ------------------------------------------------------------------ the plan
    def point(self, wall, at, off=0):
        """Along the first wall is 1, the roof lies at −i; inside corners turn to the roof."""
        here, along = 0, 1
        for i, name in enumerate(self.order):
            if name == wall:
                return here + along * at + along * -1j * off
            here += along * self.walls[name]["length_mm"]
            along *= -1j if self.job["corners"][i] == "inside" else 1j
        raise KeyError(wall)

    @property
    def extinguishers(self):
        return [self.spot(e) for e in self.job["extinguishers"]]

    def trained_for_watch(self):
        """Who watches, and whether they are trained for it."""
        return {
            k: bool(self.job_hand(k).get("watch")) for k, p in self.people.items() if p["watch"]
        }

    def job_hand(self, name):
        return next(hand for hand in self.job["crew"] if hand["id"] == name)

    def spot(self, where):
        return self.point(where["wall"], where["at_mm"], where.get("off_mm", 0))

    def gap(self, point, wall, start, end):
        a, b = self.point(wall, start), self.point(wall, end)
        if a == b:
            return abs(point - a)
        share = ((point - a) * (b - a).conjugate()).real / abs(b - a) ** 2
        return abs(point - (a + (b - a) * min(1, max(0, share))))

    # ------------------------------------------------------------------ what lies where
    def due(self, wall):
        """The stretches of a marked wall's sheets."""
        i, n = self.order.index(wall), len(self.order)
        reach = self.job.get("corner_leg_mm", 500) - 100
        start = reach if i else 0
        end = self.walls[wall]["length_mm"] - (reach if i < n - 1 else 0)
        laps, wide = self.marks[wall]
        return list(zip([start, *laps], [a + wide for a in laps] + [end], strict=True))

    def place(self, task):
        if "sheet" in task:
            return [(task["wall"], *self.due(task["wall"])[task["sheet"]])]
        left, right = self.order[task["corner"]], self.order[task["corner"] + 1]
        leg, long = self.job.get("corner_leg_mm", 500), self.walls[left]["length_mm"]
        return [(left, long - leg, long), (right, 0, leg)]

    def name(self, task):
        if "sheet" in task:
            return f"{task['wall']}:{task['sheet']}"
        return f"corner-{task['corner']}:{task['number']}"

    def covered(self, wall, at):
        """Whether the cell that begins here lies under a sheet."""
        return any(w == wall and a <= at < b for s in self.sheets.values() for w, a, b in s["on"])

    def laps(self, wall):
        """(number, from, to, left sheet, right sheet) of every lap whose two sheets are there."""
        if wall not in self.marks:
            return
        i, count = self.order.index(wall), len(self.due(wall))
        row = [self.sheets.get(f"{wall}:{k}") for k in range(count)]
        row.insert(0, self.corner_sheet(i - 1) if i else None)
        row.append(self.corner_sheet(i) if i < len(self.corners) else None)
        for k, (a, b) in enumerate(pairwise(row)):
            if a and b:
                left = next(end for w, _, end in a["on"] if w == wall)
                right = next(start for w, start, _ in b["on"] if w == wall)
                yield k, right, left, a, b

    def corner_sheet(self, i):
        return self.sheets.get(f"corner-{i}:2") or self.sheets.get(f"corner-{i}:1")

    def open_lap(self, wall, lap):
        k, _, _, a, b = lap
        under = b if b["down"] < a["down"] else a
        return (
            a["rolled"] and b["rolled"] and not under["melted"] and f"{wall}:{k}" not in self.welds
        )

    def unclosed(self):
        """(name, wall, from, to) of everything that a flame must keep away from."""
        for name, sheet in self.sheets.items():
            if not sheet["rolled"]:
                yield from ((name, *part) for part in sheet["on"])
        for wall in self.order:
            for lap in self.laps(wall):
                if self.open_lap(wall, lap):
                    yield f"lap {wall}:{lap[0]}", wall, lap[1], lap[2]
        for i, corner in enumerate(self.corners):
            if f"corner-{i}:1" in self.sheets and not corner["fill"]:
                yield f"corner-{i}", self.order[i + 1], 0, 0

    # ------------------------------------------------------------------ one decision
    def take(self, d):
        seen = self.notices
        if d["do"] == "wait":
            self.wait(d["minutes"])
        elif d["do"] == "leave":
            for p in self.people.values():
                p.update(task=None, until=None, row=[], watch=False)
            self.ended = self.now
            self.look()
        else:
            row = self.row(d)
            self.people[d["who"]]["row"] = row[1:]
            self.start(self.people[d["who"]], row[0])
            seen = self.notices
        while not self.ended and self.all_at_work() and self.notices == seen:
            self.minute()

    def wait(self, minutes):
        until, seen = self.now + (minutes or 60), self.notices
        while self.now < until and self.notices == seen:
            busy = self.busy()
            self.minute()
            if not minutes and self.busy() < busy:
                return

    def busy(self):
        return sum(p["task"] is not None for p in self.people.values())

    def all_at_work(self):
        return self.busy() and all(p["task"] or p["watch"] for p in self.people.values())

    def row(self, d):
        key = "lap" if d["do"] == "weld" else "sheet"
        if "through" not in d and not d.get("rolling"):
            return [d]
        first, last, tasks = d[key], d.get("through", d[key]), []
        for k in range(first, last + 1) if last >= first else range(first, last - 1, -1):
            tasks.append({x: y for x, y in d.items() if x not in ("through", "rolling")} | {key: k})
            if d.get("rolling"):
                tasks.append({"do": "roll", "who": d["who"], "wall": d["wall"], "sheet": k})
        return tasks

    def length(self, t):
        table = self.job["minutes"]
        if t["do"] == "prime":
            return math.ceil(table["prime a metre"] * (t["to"] - t["from"]) / 1000)
        if t["do"] in ("cut", "preheat"):
            return table[f"{t['do']} a strip"] * t["strips"]
        if t["do"] in ("watch", "end watch"):
            return 0
        return table[
            "lay together" if t["do"] == "lay" and t.get("with") else NAMES.get(t["do"], t["do"])
        ]

    def possible(self, t):
        """Whether the next of a row can begin."""
        others = [
            p["task"] for p in self.people.values() if p["task"] and p["task"]["who"] != t["who"]
        ]
        if t.get("with") and (self.people[t["with"]]["task"] or self.people[t["with"]]["row"]):
            return False
        if t["do"] == "weld":
            lap = next((x for x in self.laps(t["wall"]) if x[0] == t["lap"]), None)
            torch = self.flames.get("torch")
            here = f"{t['wall']}:{t['lap']}" in self.welds
            return bool(lap and lap[2] > lap[1] and torch and torch["who"] == t["who"] and not here)
        clash = any(o.get("sheet") == t["sheet"] and o.get("wall") == t["wall"]
                    and o["do"] in ("lay", "roll") for o in others)  # fmt: skip
        there = self.name(t) in self.sheets
        if t["do"] == "roll":
            return there and not clash
        return (
            t["sheet"] < len(self.due(t["wall"])) and not there and bool(self.strips) and not clash
        )

    def start(self, person, t):
        hands = [person] + ([self.people[t["with"]]] if t.get("with") else [])
        for p in hands:
            p.update(task=t, until=self.now + self.length(t), watch=False)
        person["from"] = self.now
        begin = getattr(self, f"begin_{t['do'].replace(' ', '_')}", None)
        if begin:
            begin(t)
        if person["until"] == self.now:
            self.finish(person)
        else:
            self.look()

    def finish(self, *people):
        """All that is done in one minute is done before anybody looks."""
        for person in people:
            self.done(person)
        self.look()
        for person in people:
            self.go_on(person)

    def done(self, person):
        t = person["task"]
        end = getattr(self, f"end_{t['do'].replace(' ', '_')}", None)
        if end:
            end(t, person)
        for p in self.people.values():
            if p["task"] is t:
                p.update(task=None, until=None)

    def go_on(self, person):
        if person["row"] and not person["task"]:
            following = person["row"].pop(0)
            if self.possible(following):
                self.start(person, following)
            else:
                person["row"] = []
                self.notices += 1

    def minute(self):
        self.now += 1
        if "torch" in self.flames:
            self.gas -= 1
            if self.gas == 0:
                self.gas_out()
        for start, end in self.rain:
            if self.now == start:
                self.begin_rain()
            if self.now == end:
                self.rain_over, self.notices = end, self.notices + 1
        self.look()
        people = [p for p in self.people.values() if p["until"] == self.now]
        self.finish(*(p for p in people if p["task"]["who"] == p["id"]))

    # ------------------------------------------------------------------ what is wrong now
    def look(self):
        seen = set(wrong_now(self))
        self.found += [(*key, self.now) for key in sorted(seen - self.standing)]
        self.standing = seen
