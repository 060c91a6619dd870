"""Descriptions that use every key there is, and mean nothing else."""

FLEET = """\
airline: Test Air (invented)
demonstration: true
aircraft:
  T-1: {title: Test type}
sources:
  ULD: {title: Unit load device data (invented), issue: "1", date: "2026-01-01"}
bases:
  K: {length: 1534 mm, width: 1562 mm, source: ULD 2}
unit-types:
  AKE:
    title: box
    base: K
    height: 1626 mm
    contour: E
    max-gross: {value: 1588 kg, source: ULD 3-1}
    tare: 82 kg
    source: ULD 3-2
"""

HOLD = """\
hold: FULL
title: Hold with everything
aircraft: T-1
demonstration: true
sources:
  WB: {title: Test weight and balance data (invented), issue: "4", date: "2026-09-01"}
floor:
  x: [10 m, 20 m]
  y: [-1 m, 1 m]
  height: 1.7 m
  surface: flat floor
  bears-on-floor: true
  limits: {running: {value: 760 kg/m, source: WB 3-4}, area: {value: 732 kg/m2, source: WB 3-5}, source: WB 3}
load-factors:
  kind: ultimate
  forward: {value: 9 g, source: WB 2-2}
  aft: 1.5 g
  left: 3 g
  right: 3 g
  up: 3 g
  source: WB 2-1
doors:
  door:
    name: cargo door
    side: left
    x: [18 m, 20 m]
    clear: {width: 1.9 m, height: 1.6 m}
    sill: 2 m
    wind: {opening: {value: 40 kt, source: WB 7-1}, open: 60 kt, source: WB 7-2}
    close-needs: {stop: raised}
bays:
  A: {x: [10 m, 12 m], y: [-0.8 m, 0.8 m], position: true}
  B: {x: [18 m, 20 m], y: [-0.8 m, 0.8 m], position: true, door: door}
lanes:
  - {go: in, through: [outside, B]}
  - {go: forward, through: [B, A]}
power:
  switch: switch
  "on": run
  "off": stop
  needs: {stop: lowered}
  interlock-moves-while-on: false
panels:
  panel: {name: panel door, at: inside}
controls:
  switch: {name: power switch, kind: switch, positions: [stop, run], behind: panel, at: inside}
  stick: {name: stick, kind: stick, positions: [centre, push, pull], hold-to-run: true}
  handle: {name: handle, kind: handle, positions: [up, down], returns: when-clear}
drives:
  drive:
    name: drive
    under: [B, A]
    run-by: stick
    go: {in: push, out: pull, forward: push, aft: pull}
    speed: 0.3 m/s
    pull: 900 N
restraints:
  stop:
    name: stop
    kind: stop
    between: [B, outside]
    stops: [in, out]
    override: [in]
    moved-by: hand
    reached-from: outside
    lowered-by: {handle: down}
    powered: true
    returns: spring
    at-rest: lowered
    when-vacant: raised
    grips: true
    guides: [[outside, B], [B, A]]
    rating: {forward: {value: 9 kN, source: WB 4-2}, aft: 9 kN, left: 9 kN, right: 9 kN, up: 9 kN}
    source: WB 4-1
  rail:
    name: rail
    kind: rail
    beside: [A, B]
    fixed: true
positions:
  A:
    held-by: [stop, rail]
    max: {K: {value: 1500 kg, source: WB 5-3}, AKE: 1400 kg}
    contours: [E]
    height: 1.65 m
    source: WB 5-1
  B: {held-by: [stop], max: {AKE: 1400 kg}, source: WB 5-1}
zones:
  zone: {name: whole hold, positions: [A, B], combined: 2000 kg, source: WB 5-2}
hand-moves:
  resistance-starting: {value: 3 %, source: WB 8-1}
  resistance-moving: 2 %
  slope: 0 %
  force-starting: 200 N
  force-moving: 100 N
  max-mass: 1000 kg
  source: WB 8-2
"""

STATION = """\
station: T1A
title: Testing (invented)
demonstration: true
holds: [FULL]
mass-unit: lb
contacts:
  - {role: supervisor, how: radio}
revision: {number: 2, date: "2026-11-20", effective: "2026-11-25", author: A. Tester, reason: Test.}
"""

PROCEDURE = """\
procedure: every-verb
title: Every verb
hold: FULL
operation: unloading
units:
  u1: {type: AKE, bay: A}
aboard:
  u2: {type: AKE, bay: B}
steps:
  - section: prepare
  - warning: crushed
  - caution: crushed
  - notice: crushed
  - open: door
  - close: door
  - set: {switch: run}
  - raise: stop
  - lower: stop
  - fit: stop
  - remove: stop
  - present: u1
  - drive: {unit: u1, hold: {stick: push}, through: [outside, B]}
  - push: {unit: u1, crew: 3, hold: {handle: down}, through: [B, outside]}
  - check: {condition: look, unit: u1}
  - check: look
  - check: {raised: [stop]}
  - check: {lowered: [stop]}
  - report: done
  - note: Nothing more.
"""

HAZARDS = """\
hazards:
  crushed:
    title: Crushed
    signal: caution
    scope: step
    comes-with:
      - {verbs: [raise], kinds: [lock], reached-from: [inside], operations: [loading]}
    hazard: It moves.
    consequence: It crushes.
    avoid: Keep out.
    checks:
      - {condition: look, before: {verbs: [drive]}, after: {verbs: [open]}, frequency: each-unit}
    reports: [done]
    source: common practice of the trade, no source
checks:
  look: {text: Look., done-when: Seen., if-not: Look again.}
reports:
  done: {text: Report., done-when: "", if-not: ""}
"""

FILES = {
    "fleet/fleet.yaml": FLEET,
    "fleet/holds/FULL.yaml": HOLD,
    "T1A/station.yaml": STATION,
    "T1A/procedures/every-verb.yaml": PROCEDURE,
}
SCHEMA_OF = {
    "fleet/fleet.yaml": "fleet.json",
    "fleet/holds/FULL.yaml": "hold.json",
    "T1A/station.yaml": "station.json",
    "T1A/procedures/every-verb.yaml": "procedure.json",
    "hazards.yaml": "hazards.json",
}
