"""A build whose places, ways and outline are all written down, for the drawings to scale."""

PLAN_BUILD = """\
format: 1
build: {name: Reed Corner, number: 2, country: US, stage: walls open}
trailer: {length: 12 ft 8 in, width: 5 ft 4 in}
battery: {chemistry: agm, capacity: 60 Ah, path: [main fuse: 6 in, front box]}
front box: {fuse ways: 8, fuses: blade regular}
tow plug: {pattern: 4-way flat, to front box: 7 ft}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG, 8 AWG], sold as: single, feed: red, return: black}
parts:
  step switch: {kind: switch}
  step lamp: {kind: lamp, draws: 3 W}
  left reading lamp: {kind: lamp, draws: 2 W, own switch: yes}
  right reading lamp: {kind: lamp, draws: 2 W, own switch: yes}
  roof fan: {kind: fan, draws: 2.2 A, own switch: yes}
  galley switch: {kind: switch, place: left galley}
  galley lamp: {kind: lamp, draws: 4 W}
  hatch plug: {kind: connector, ways: 8}
  hatch lamp: {kind: lamp, draws: 5 W}
  water pump: {kind: pump, draws: 4 A, place: left galley, rise: 8 in}
circuits:
  step light: {path: [step switch, step lamp]}
  left reading: {path: [left reading lamp]}
  right reading: {path: [right reading lamp]}
  roof fan: {path: [roof fan]}
  galley light: {path: [galley switch, galley lamp]}
  hatch light: {path: [hatch plug, hatch lamp]}
  water pump: {path: [water pump]}
road lamps:
  lamps: led
  rear lamp: {shows: [tail, stop, turn], side: both, path: [hatch plug, rear lamp]}
spares:
  rear spare: {from: front box, to: left galley, wire: 14 ft, size: 14 AWG, color: white with violet}
places:
  tow plug: {ahead: 38 in, right: 6 in, down: 2 in}
  battery: {ahead: 16 in, up: 8 in}
  main fuse: {ahead: 12 in, left: 3 in, up: 10 in}
  front wall: {back: 2 in, up: 10 in}
  front box: {back: 8 in, right: 4 in, up: 12 in}
  left front: {back: 8 in, left: 28 in, up: 12 in}
  right front: {back: 8 in, right: 28 in, up: 12 in}
  step switch: {back: 26 in, left: 28 in, up: 24 in}
  left door foot: {back: 26 in, left: 28 in, up: 3 in}
  step lamp: {back: 48 in, left: 29 in, up: 1 in}
  left bulkhead: {back: 72 in, left: 28 in, up: 36 in}
  right bulkhead: {back: 72 in, right: 28 in, up: 36 in}
  left reading lamp: {back: 72 in, left: 14 in, up: 36 in}
  right reading lamp: {back: 72 in, right: 14 in, up: 36 in}
  roof rib: {back: 60 in, left: 28 in, up: 47 in}
  roof fan: {back: 60 in, left: 8 in, up: 47 in}
  left galley: {back: 96 in, left: 28 in, up: 20 in}
  galley lamp: {back: 90 in, up: 34 in}
  hatch hinge: {back: 80 in, left: 26 in, up: 44 in}
  hatch plug: {back: 82 in, left: 26 in, up: 42 in}
  hatch lamp: {back: 102 in, up: 24 in}
  rear lamp left: {back: 109 in, left: 24 in, up: 10 in}
  rear lamp right: {back: 109 in, right: 24 in, up: 10 in}
chases:
  tongue conduit: {through: [tow plug, battery, main fuse, front wall], kind: conduit, bore: 1 in}
  front run: {through: [front wall, front box], kind: open bay}
  front channel: {through: [left front, front box, right front], kind: channel}
  left wall groove: {through: [left front, step switch, left bulkhead, left galley], kind: groove}
  left door groove: {through: [step switch, left door foot, step lamp], kind: groove}
  right wall groove: {through: [right front, right bulkhead], kind: groove}
  bulkhead left:
    through: [left bulkhead, left reading lamp, right reading lamp, right bulkhead]
    kind: conduit
    bore: 3/4 in
  roof groove: {through: [left bulkhead, roof rib, roof fan], kind: groove}
  galley bay: {through: [left galley, galley lamp], kind: open bay}
  hinge way: {through: [left bulkhead, hatch hinge], kind: groove}
  hatch loop: {through: [hatch hinge, hatch plug], kind: hinge loop, slack: 10 in}
  hatch channel: {through: [hatch plug, hatch lamp, rear lamp left], kind: channel}
  hatch channel right: {through: [hatch lamp, rear lamp right], kind: channel}
  spare channel: {through: [right bulkhead, galley lamp], kind: channel}
body:
  profile:
    - {back: 0 in, up: 0 in}
    - {back: 9 ft 2 in, up: 0 in}
    - {back: 9 ft 1 in, up: 14 in}
    - {back: 6 ft 8 in, up: 46 in, radius: 4 ft}
    - {back: 3 ft, up: 48 in, radius: 20 ft}
    - {back: 0 in, up: 20 in, radius: 3 ft 6 in}
  width: 5 ft
openings:
  left door: {in: left wall, back: 30 in, up: 4 in, width: 26 in, height: 36 in, radius: 5 in}
  right door: {in: right wall, back: 30 in, up: 4 in, width: 26 in, height: 36 in, radius: 5 in}
  roof fan: {in: roof, back: 53 in, length: 14 in, width: 14 in}
  hatch: {in: rear wall, up: 1 in, width: 4 ft 8 in, height: 43 in}
frames:
  ribs: {back: [1 in, 28 in, 58 in, 74 in], thick: 3/4 in}
  side rails: {in: [left wall, right wall], up: 2 in, thick: 1 1/2 in}
"""
"""An invented trailer: no such one was built, and its figures are ours."""
