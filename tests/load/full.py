"""Descriptions that use every key there is, and mean nothing else."""

FLEET = """\
airline: Test Air (invented)
demonstration: true
aircraft:
  T-1:
    title: Test type
    gear: {nose: 4 m, main: 17 m, nose-share: {value: 6 %, source: ULD 9-1}, source: ULD 9}
    configurations:
      C-1: {title: as built}
      C-2: {title: modified}
    registrations: {Q1-A1: C-1, Q1-A2: C-2}
    empty: {mass: 41 t, arm: 16 m, source: ULD 9-2}
sources:
  ULD: {title: Unit load device data (invented), issue: "1", date: "2026-01-01"}
bases:
  K: {length: 1534 mm, width: 1562 mm, source: ULD 2}
contours:
  E: {outline: [{y: -781 mm, z: 0 mm}, {y: 781 mm, z: 0 mm}, {y: 781 mm, z: 1626 mm}], source: ULD 4}
unit-types:
  AKE:
    title: box
    base: K
    height: 1626 mm
    contour: E
    max-gross: {value: 1588 kg, source: ULD 3-1}
    tare: 82 kg
    source: ULD 3-2
  LS: {title: loose pieces, loose: true, max-gross: 900 kg, source: ULD 3-9}
"""

HOLD = """\
hold: FULL
title: Hold with everything
aircraft: T-1
demonstration: true
variant-of: FULL
effectivity: {configurations: [C-1], registrations: [Q1-A2]}
sources:
  WB: {title: Test weight and balance data (invented), issue: "4", date: "2026-09-01"}
floor:
  x: [10 m, 20 m]
  y: [-1 m, 1 m]
  height: 1.7 m
  surface: flat floor
  bears-on-floor: true
  limits:
    running: {value: 760 kg/m, source: WB 3-4}
    area: {value: 732 kg/m2, source: WB 3-5}
    contact: 4900 kg/m2
    point: 180 kg
    line: 520 kg/m
    source: WB 3
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
    wall: 90 mm
    sill: 2 m
    wind: {opening: {value: 40 kt, source: WB 7-1}, open: 60 kt, source: WB 7-2}
    close-needs: {stop: raised}
bays:
  A: {x: [10 m, 12 m], y: [-0.8 m, 0.8 m], position: true}
  B: {x: [18 m, 20 m], y: [-0.8 m, 0.8 m], position: true, door: door}
  C: {x: [12 m, 14 m], y: [-0.8 m, 0.8 m], position: true, bulk: true}
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
  panel: {name: panel door, at: inside, behind: outer-panel}
  outer-panel: {name: outer door, at: inside}
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
  C: {held-by: [stop], max: {LS: 800 kg}, source: WB 5-1}
zones:
  zone:
    name: whole hold
    positions: [A, B]
    x: [10 m, 20 m]
    combined: 2000 kg
    running: 1000 kg/m
    asymmetry: 900 kg
    adjacent: 1900 kg
    source: WB 5-2
cumulative:
  from-aft:
    name: hold from its aft end
    from: aft
    points: [{x: 10 m, max: {value: 2000 kg, source: WB 5-5}}, {x: 20 m, max: 1 kg}]
    source: WB 5-4
out-together: [[stop, rail]]
cross-section: {corners: [{z: 0 m, width: 2 m}, {z: 1.7 m, width: 1.8 m}], source: WB 1-4}
tie-down:
  points:
    T1:
      name: ring T1
      x: 11 m
      y: -0.8 m
      z: 40 mm
      rating: {forward: {value: 4 kN, source: WB 6-3}, aft: 4 kN, left: 4 kN, right: 4 kN, up: 9 kN}
      source: WB 6-1
  straps:
    strap: {name: tie-down strap, rating: {value: 9 kN, source: WB 9-2}, source: WB 9-1}
  in-pairs: true
  friction: {value: 20 %, source: WB 6-2}
notes:
  - {about: live-load, text: Animals only in position A., source: WB 10-2}
hand-moves:
  resistance-starting: {value: 3 %, source: WB 8-1}
  resistance-moving: 2 %
  slope: 0 %
  force-starting: 200 N
  force-moving: 100 N
  max-mass: 1000 kg
  pulling-gear:
    hook: {name: pulling hook, pull: {value: 800 N, source: WB 8-4}, length: 2.2 m, source: WB 8-3}
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
allowances: {hand-action: 6 s, check: 5 s, present: 45 s, push: 0.4 m/s, stow: 15 min}
wind: {opening: 35 kt, open: 50 kt, reason: Test.}
distribution: [{who: loading supervisor, copy: paper}]
revision: {number: 2, date: "2026-11-20", effective: "2026-11-25", author: A. Tester, reason: Test.}
waive:
  - {rule: unknown-key, reason: None., by: A. Writer, until: "2030-01-01", approver: B. Chief}
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
put-back: [u2]
out-of-service: {stop: down, stick: dead}
jammed: [u1]
effectivity: {configurations: [C-1], registrations: [Q1-A2]}
steps:
  - section: prepare
  - warning: crushed
  - caution: crushed
  - notice: crushed
  - open: door
  - close: door
  - check: {latched: door, by: closer}
  - check: {latched: door, by: second-person}
  - set: {switch: run}
  - raise: stop
  - lower: stop
  - fit: stop
  - remove: stop
  - present: u1
  - present: {unit: u1, door: door}
  - drive: {unit: u1, hold: {stick: push}, through: [outside, B]}
  - push: {unit: u1, crew: 3, hold: {handle: down}, through: [B, outside]}
  - pull: {unit: u1, crew: 3, with: hook, hold: {handle: down}, through: [B, outside]}
  - stow: {unit: u1, crew: 2, through: [outside, C]}
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
    several-doors: true
    comes-with:
      - {verbs: [raise], kinds: [lock], reached-from: [inside], operations: [loading]}
      - {verbs: [check], conditions: [look]}
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

ANSWERS = """\
answers:
  - difference: FULL/limit/1/AKE
    seal: 3f2a9c0d1b7e4a55
    by: M. Arden (invented)
    date: "2026-11-20"
    reason: Weight and balance data issue 5 (invented).
"""

FILES = {
    "fleet/fleet.yaml": FLEET,
    "fleet/holds/FULL.yaml": HOLD,
    "T1A/station.yaml": STATION,
    "T1A/procedures/every-verb.yaml": PROCEDURE,
    "T1A/answers.yaml": ANSWERS,
}
SCHEMA_OF = {
    "fleet/fleet.yaml": "fleet.json",
    "fleet/holds/FULL.yaml": "hold.json",
    "T1A/station.yaml": "station.json",
    "T1A/procedures/every-verb.yaml": "procedure.json",
    "T1A/answers.yaml": "answers.json",
    "<hazards.yaml>": "hazards.json",
}
