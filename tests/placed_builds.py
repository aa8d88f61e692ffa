"""Generated builds with a body, places, ways, skins and a panel on record, beside the lengths they have already."""

from __future__ import annotations

import json
import random

from generated_builds import GeneratedBuild

PROFILE = "[{back: 0 mm, up: 0 mm}, {back: 2 m, up: 0 mm}, {back: 2 m, up: 700 mm}, {back: 1 m, up: 1200 mm, radius: 1.5 m}, {back: 0 mm, up: 600 mm, radius: 1.3 m}]"  # noqa: E501
BODY = f"""body: {{width: 1.2 m, profile: {PROFILE}}}
openings: {{left opening: {{in: left wall, back: 500 mm, up: 100 mm, width: 600 mm, height: 400 mm}}}}
frames: {{rib: {{back: [400 mm, 1200 mm], thick: 20 mm}}}}
"""
COVERS = """skins:
  shell left: {lies on: [left wall, roof], fasteners go in: 12 mm}
  shell right: {lies on: right wall, fasteners go in: 20 mm}
panels: {lining of this side: {corners: [ring one, ring two, ring three, ring four], BEHIND}}
"""
THROUGH = ("floor chase", "rear corner", "wall groove")
"""What generated paths are led through."""
RING = ((300, 150), (1500, 150), (1500, 450), (300, 450))
"""Back and up of the corners of a panel, in millimetres."""


def placed(build: GeneratedBuild) -> str:
    """Return the build file of a build with most of its parts at places of their own, which some chases join.

    Nearly all places lie in the body, some outside it, as lamps do; no two of them are one point.
    """
    rng = random.Random(build.seed)  # noqa: S311 - it draws places
    names = ["front box", *(name for name in ("battery", "tow plug") if name in build.tree)]
    names += [name for name in build.parts if rng.random() < 0.8]
    names += THROUGH
    lines = ["places:"]
    for number, name in enumerate(names):
        ahead = name == "tow plug"
        back = 20 + 7 * number % 1900
        side = rng.choice(["left", "right"])
        along = f"ahead: {400 + back} mm" if ahead else f"back: {back} mm"
        lines.append(
            f"  {json.dumps(name, ensure_ascii=False)}: {{{along}, {side}: {rng.randrange(580)} mm, "
            f"up: {rng.randrange(30, 550)} mm}}"
        )
    for name, (back, up) in zip(("one", "two", "three", "four"), RING, strict=True):
        lines.append(f"  ring {name}: {{back: {back} mm, left: 540 mm, up: {up} mm}}")
    order = rng.sample(names, len(names))
    chases = [order[n : n + 4] for n in range(0, len(order) - 1, 3)]
    lines.append("chases:")
    for number, through in enumerate(chases):
        if len(through) > 1 and (rng.random() < 0.9 or number == 0):
            kind = rng.choice(
                ["groove", "channel", "open bay", "conduit, bore: 40 mm", "groove, plate: 2 mm"]
            )
            listed = json.dumps(through, ensure_ascii=False)
            lines.append(f"  way number {number}: {{through: {listed}, kind: {kind}}}")
    if lines and lines[-1] == "chases:":
        lines[-1] = "chases: {}"
    behind = rng.choice(["behind: nothing", "also behind: a water pipe", "held by: 4 screws"])
    return build.text + "\n".join(lines) + "\n" + BODY + COVERS.replace("BEHIND", behind)
