"""The rules of the second interpreter: what is wrong in a state, as (subject, place).

Sources of the limits stand in scenarios/rulebook.yaml and are checked in test_rulebook_values.py.
"""

from itertools import pairwise

LIMITS = {
    "unclosed": 1000, "wet": 7620, "gas": 4572, "extinguisher": 9144, "film": 1000, "watch": 120,
    "side": 76.2, "clear": 101.6, "field": 101.6, "gusset": 101.6, "relax": 30, "rain": 1440,
}  # fmt: skip
HOLDING = {"light", "preheat", "weld", "gusset", "put out"}


def wrong_now(s):
    yield from about_flames(s)
    yield from about_the_watch(s)
    yield from about_primer(s)
    for name, sheet in s.sheets.items():
        yield from about_a_sheet(s, name, sheet)
    yield from about_laps_and_corners(s)
    yield from about_open_edges(s)
    yield from about_leaving(s)


def about_flames(s):
    for tool, flame in s.flames.items():
        at = flame["at"]
        if s.permit != "open":
            yield "permit-content", tool
        if min(abs(at - e) for e in s.extinguishers) > LIMITS["extinguisher"]:
            yield "extinguisher-distance", tool
        if abs(at - s.spot(s.job["gas"])) < LIMITS["gas"]:
            yield "cylinder-to-burner", tool
        if s.film and tool == "torch":
            yield "combustibles-distance", "torch film"
        yield from near_a_flame(s, tool, at)
    if "torch" in s.flames:
        yield from about_the_hand(s, s.flames["torch"])


def near_a_flame(s, tool, at):
    for name, *part in s.unclosed():
        if s.gap(at, *part) < LIMITS["unclosed"]:
            yield "flame-to-unclosed", f"{tool} {name}"
    for coat in s.coats:
        if wet_near(s, coat, at):
            yield "wet-primer-to-flame", f"{tool} primer {coat['id']}"
    if s.can is not None and abs(at - s.can) < LIMITS["wet"]:
        yield "wet-primer-to-flame", f"{tool} open can"


def wet_near(s, coat, at):
    """Whether what of a coat is neither dry nor under a sheet is near."""
    dry = s.job["paper"]["dry_min"]
    wet_from = max(0, (s.now - dry - coat["at"]) * 1000 / coat["per"])
    start, end = coat["from"] + int(wet_from + 1e-6), coat["to"]
    edges = {e for sheet in s.sheets.values() for w, *ends in sheet["on"] if w == coat["wall"]
             for e in ends if start < e < end}  # fmt: skip
    row = sorted({start, end} | edges) if start < end else []
    parts = [(a, b) for a, b in pairwise(row) if not s.covered(coat["wall"], a)]
    return any(s.gap(at, coat["wall"], a, b) < LIMITS["wet"] for a, b in parts)


def about_the_hand(s, torch):
    person = s.people[torch["who"]]
    doing = person["task"]["do"] if person["task"] else None
    if not person.get("torch"):
        yield "extinguisher-training", f"torch {torch['who']}"
    if person["watch"] or (doing and doing not in HOLDING):
        yield "lit-torch-left", "torch"
    near = min(s.gap(torch["at"], w, 0, wall["length_mm"]) for w, wall in s.walls.items())
    if doing == "preheat" and near < LIMITS["film"]:
        yield "film-preheat-distance", "torch"


def about_the_watch(s):
    trained = 0
    for name, person in s.trained_for_watch().items():
        trained += person
        if not person:
            yield "watch-duties", f"watch {name}"
    if s.flames:
        if not trained:
            yield "watchers-per-torch", "watch"
        return
    if s.last_flame is None or s.now >= s.last_flame + LIMITS["watch"]:
        return
    if not trained or s.ended:
        yield "fire-watch", "watch"
    if s.permit == "closed":
        yield "fire-watch", "permit"


def about_primer(s):
    for coat in s.coats:
        if coat["damp"]:
            yield "wet-surface", f"primer {coat['id']}"
        if coat["rain"]:
            yield "wet-weather", f"primer {coat['id']}"


def about_a_sheet(s, name, sheet):
    wrong = {
        "primed-surfaces": sheet["bare"],
        "primer-touch-dry": sheet["undried"],
        "primer-never-after": sheet["age"] > s.job["paper"]["latest_min"],
        "wet-surface": sheet["spoilt"],
        "relaxing-time": sheet["relaxed"] < LIMITS["relax"],
        "dry-since-rain": sheet["since"] is not None and sheet["since"] < LIMITS["rain"],
        "lap-onto-field": sheet["leg"] < LIMITS["field"],
        "defects-rejected": sheet["wrinkled"],
        "wet-weather": sheet["rain"],
    }
    yield from ((subject, name) for subject, is_wrong in wrong.items() if is_wrong)


def about_laps_and_corners(s):
    for wall in s.order:
        for lap in s.laps(wall):
            number, start, end, _, _ = lap
            place = f"lap {wall}:{number}"
            if end - start < LIMITS["side"]:
                yield "side-lap", place
            for low, high in s.walls[wall].get("field_laps", []):
                if low - end < LIMITS["clear"] and start - high < LIMITS["clear"]:
                    yield "lap-clearance", place
            if s.open_lap(wall, lap):
                yield "defects-rejected", place
    for i, corner in enumerate(s.corners):
        if f"corner-{i}:2" in s.sheets and not corner["before"]:
            yield "t-joint-cut", f"corner-{i}"
        if corner["reach"] is not None and corner["reach"] < LIMITS["gusset"]:
            yield "gusset-cover", f"corner-{i}"


def about_open_edges(s):
    """Rain, or everybody gone: is a wall with sheets on it closed from end to end?"""
    if not s.ended and not s.raining(s.now):
        return
    for i, wall in enumerate(s.order):
        on = [name for name, sheet in s.sheets.items() if any(w == wall for w, _, _ in sheet["on"])]
        if not on or wall in s.sealed:
            continue
        last = len(s.order) - 1
        due = len(s.due(wall)) - 1 + (i > 0) + (i < last) if wall in s.marks else None
        laps = list(s.laps(wall))
        loose = any(not s.sheets[name]["rolled"] for name in on)
        loose = loose or any(s.open_lap(wall, lap) for lap in laps)
        if due is None or len(laps) < due or loose:
            yield "end-of-day-seal", f"wall {wall}"


def about_leaving(s):
    if s.ended is None:
        return
    if s.flames:
        yield "lit-torch-left", "roof"
    if s.last_flame is not None and (s.looked is None or s.looked < s.last_flame):
        yield "last-inspection", "roof"
