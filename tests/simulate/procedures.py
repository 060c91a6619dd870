"""Clean procedures written by hand for the demonstration holds, and small holds of our own.

What is right and wrong in them is common practice of the trade, no source.
"""

STATION = """\
station: T1T
title: Teston (invented)
demonstration: true
holds: [HOLD]
mass-unit: kg
contacts:
  - {role: loading supervisor, how: radio channel 1}
revision:
  {number: 1, date: "2026-01-01", effective: "2026-01-01", author: T. Ester (invented), reason: First issue.}
"""

ROW_IN = """\
procedure: p
title: Three units into the single row, one of them at the doorway
hold: SR-AFT
operation: loading
units:
  u41: {type: AKH, bay: "41"}
  u42: {type: AKH, bay: "42"}
  u44: {type: AKH, bay: "44"}
steps:
  - section: prepare
  - open: aft-door
  - lower: sill-lock
  - open: control-panel
  - set: {power-switch: "on"}
  - check: {raised: [side-guide, inner-guide]}
  - check: {lowered: [lock-41, lock-42, lock-43]}
  - section: move-units
  - present: u41
  - check: path-clear # for u41
  - drive: {unit: u41, hold: {stick: in}, through: [outside, "44"]}
  - drive: {unit: u41, hold: {stick: forward, guide-switch: forward}, through: ["44", "43", "42", "41"]}
  - raise: lock-41
  - present: u42
  - check: path-clear # for u42
  - drive: {unit: u42, hold: {stick: in}, through: [outside, "44"]}
  - drive: {unit: u42, hold: {stick: forward, guide-switch: forward}, through: ["44", "43", "42"]}
  - raise: lock-42
  - raise: lock-43
  - present: u44
  - check: path-clear # for u44
  - drive: {unit: u44, hold: {stick: in}, through: [outside, "44"]}
  - section: secure-and-close
  - check: everyone-out
  - raise: sill-lock
  - set: {power-switch: "off"}
  - close: control-panel
  - close: aft-door
  - check: {latched: aft-door, by: closer}
  - check: {latched: aft-door, by: second-person}
"""

ROW_OUT = """\
procedure: p
title: Two units out of the single row
hold: SR-AFT
operation: unloading
units:
  u44: {type: AKH, bay: "44"}
  u41: {type: AKH, bay: "41"}
steps:
  - open: aft-door
  - lower: sill-lock
  - open: control-panel
  - set: {power-switch: "on"}
  - lower: inner-guide
  - check: path-clear # for u44
  - drive: {unit: u44, hold: {stick: out, sill-handle: down}, through: ["44", outside]}
  - lower: lock-41
  - lower: lock-43
  - check: path-clear # for u41
  - drive: {unit: u41, hold: {stick: aft}, through: ["41", "42", "43", "44"]}
  - drive: {unit: u41, hold: {stick: out, sill-handle: down}, through: ["44", outside]}
  - raise: inner-guide
  - check: everyone-out
  - raise: sill-lock
  - set: {power-switch: "off"}
  - close: control-panel
  - close: aft-door
  - check: {latched: aft-door, by: closer}
  - check: {latched: aft-door, by: second-person}
"""

TWIN_IN = """\
procedure: p
title: Three units into the twin-row hold
hold: TR-FWD
operation: loading
units:
  u11R: {type: AKE, bay: 11R}
  u14L: {type: AKE, bay: 14L}
  u14R: {type: AKE, bay: 14R}
steps:
  - open: forward-door
  - lower: forward-sill-lock
  - lower: aft-sill-lock
  - open: control-panel
  - set: {power-switch: "on"}
  - raise: forward-doorway-guide
  - raise: aft-doorway-guide
  - present: u11R
  - check: path-clear # for u11R
  - drive: {unit: u11R, hold: {door-stick: in}, through: [outside, 14R]}
  - drive: {unit: u11R, hold: {right-lane-stick: forward, right-guide-switch: forward},
      through: [14R, 13R, 12R, 11R]}
  - raise: lock-11R
  - raise: lock-13L
  - present: u14L
  - check: path-clear # for u14L
  - drive: {unit: u14L, hold: {door-stick: in}, through: [outside, 14R, 14L]}
  - raise: lock-13R
  - present: u14R
  - check: path-clear # for u14R
  - drive: {unit: u14R, hold: {door-stick: in}, through: [outside, 14R]}
  - check: everyone-out
  - raise: forward-sill-lock
  - raise: aft-sill-lock
  - set: {power-switch: "off"}
  - close: control-panel
  - close: forward-door
  - check: {latched: forward-door, by: closer}
  - check: {latched: forward-door, by: second-person}
"""

TWIN_OUT = """\
procedure: p
title: Three units out of the twin-row hold
hold: TR-FWD
operation: unloading
units:
  u14R: {type: AKE, bay: 14R}
  u14L: {type: AKE, bay: 14L}
  u11R: {type: AKE, bay: 11R}
steps:
  - open: forward-door
  - lower: forward-sill-lock
  - lower: aft-sill-lock
  - open: control-panel
  - set: {power-switch: "on"}
  - raise: forward-doorway-guide
  - raise: aft-doorway-guide
  - check: path-clear # for u14R
  - drive: {unit: u14R, hold: {door-stick: out, sill-handle: down}, through: [14R, outside]}
  - lower: centre-guide
  - check: path-clear # for u14L
  - drive: {unit: u14L, hold: {door-stick: out, sill-handle: down}, through: [14L, 14R, outside]}
  - lower: lock-11R
  - lower: lock-13R
  - lower: lock-13L
  - check: path-clear # for u11R
  - drive: {unit: u11R, hold: {right-lane-stick: aft}, through: [11R, 12R, 13R, 14R]}
  - drive: {unit: u11R, hold: {door-stick: out, sill-handle: down}, through: [14R, outside]}
  - raise: centre-guide
  - check: everyone-out
  - raise: forward-sill-lock
  - raise: aft-sill-lock
  - set: {power-switch: "off"}
  - close: control-panel
  - close: forward-door
  - check: {latched: forward-door, by: closer}
  - check: {latched: forward-door, by: second-person}
"""

YARD_HOLD = """\
hold: YARD
title: Hold worked by hand, wide bays over narrow ones, two doors
aircraft: T-1
demonstration: true
sources:
  WB: {title: Test data (invented), issue: "1", date: "2026-01-01"}
floor:
  x: [10.00 m, 16.50 m]
  y: [-1.70 m, 1.70 m]
  height: 1.30 m
  surface: ball mat
load-factors: {kind: limit, forward: 1.5 g, aft: 1.5 g, left: 1.2 g, right: 1.2 g, up: 1.8 g, source: WB 1}
doors:
  front-door:
    {name: front door, side: right, x: [10.00 m, 11.80 m], clear: {width: 1.80 m, height: 1.28 m},
     sill: 1.50 m, wind: {opening: 40 kt, open: 60 kt, source: WB 2}, close-needs: {front-net: raised}}
  rear-door:
    {name: rear door, side: right, x: [14.60 m, 16.50 m], clear: {width: 1.80 m, height: 1.28 m},
     sill: 1.50 m, wind: {opening: 40 kt, open: 60 kt, source: WB 2}, close-needs: {rear-net: raised}}
bays:
  1R: {x: [10.10 m, 11.70 m], y: [0.05 m, 1.65 m], position: true, door: front-door}
  1L: {x: [10.10 m, 11.70 m], y: [-1.65 m, -0.05 m], position: true}
  2R: {x: [14.80 m, 16.40 m], y: [0.05 m, 1.65 m], position: true, door: rear-door}
  2W: {x: [14.70 m, 16.45 m], y: [-1.65 m, 1.65 m], position: true, door: rear-door}
  3R: {x: [12.60 m, 14.20 m], y: [0.05 m, 1.65 m], position: true}
lanes:
  - {go: in, through: [outside, 1R, 1L]}
  - {go: in, through: [outside, 2R]}
  - {go: in, through: [outside, 2W]}
  - {go: forward, through: [2R, 3R]}
panels:
  lamp-panel: {name: lamp panel, at: inside}
controls:
  lamp-switch: {name: lamp switch, kind: switch, positions: ["off", "on"], behind: lamp-panel, at: inside}
  stop-lever: {name: stop lever, kind: lever, positions: [up, down], hold-to-run: true, at: outside}
hand-moves:
  resistance-starting: 3 %
  resistance-moving: 2 %
  slope: 1 %
  force-starting: 200 N
  force-moving: 150 N
  max-mass: 1200 kg
  source: WB 5
restraints:
  front-net: {name: front net, kind: net, between: [outside, 1R], stops: [in, out], moved-by: hand,
    reached-from: outside, at-rest: raised, rating: {right: 30 kN}, source: WB 4}
  rear-net: {name: rear net, kind: net, between: [outside, 2R], stops: [in, out], moved-by: hand,
    reached-from: outside, at-rest: raised, rating: {right: 30 kN}, source: WB 4}
  wide-stop: {name: wide stop, kind: stop, between: [outside, 2W], stops: [in, out], override: [in],
    returns: spring, moved-by: hand, reached-from: inside, at-rest: raised, rating: {right: 30 kN},
    source: WB 4}
  middle-latch: {name: middle latch, kind: latch, between: [1R, 1L], stops: [in, out],
    lowered-by: {stop-lever: down}, at-rest: raised, returns: spring, rating: {right: 30 kN}, source: WB 4}
  lock-3: {name: lock 3, kind: lock, between: [2R, 3R], stops: [forward, aft], moved-by: hand,
    reached-from: inside, at-rest: lowered, rating: {aft: 30 kN}, source: WB 4}
  walls: {name: walls, kind: rail, beside: [1R, 1L, 2R, 2W, 3R], stops: [forward, aft, in, out], fixed: true,
    rating: {forward: 60 kN, aft: 60 kN, left: 60 kN, right: 60 kN, up: 60 kN}, source: WB 4}
positions:
  1R: {held-by: [walls, front-net, middle-latch], max: {K: 1200 kg}, contours: [H], source: WB 5}
  1L: {held-by: [walls, middle-latch], max: {K: 1200 kg}, contours: [H], source: WB 5}
  2R: {held-by: [walls, rear-net, lock-3], max: {K: 1200 kg}, contours: [H], source: WB 5}
  2W: {held-by: [walls, wide-stop], max: {K: 1200 kg}, contours: [H], source: WB 5}
  3R: {held-by: [walls, lock-3], max: {K: 1200 kg}, contours: [H], source: WB 5}
zones: {}
"""

YARD_IN = """\
procedure: p
title: Two units by hand through two doors
hold: YARD
operation: loading
units:
  uL: {type: AKH, bay: 1L}
  u3: {type: AKH, bay: 3R}
steps:
  - open: front-door
  - open: lamp-panel
  - set: {lamp-switch: "on"}
  - remove: front-net
  - present: {unit: uL, door: front-door}
  - check: path-clear # for uL
  - push: {unit: uL, crew: 3, hold: {stop-lever: down}, through: [outside, 1R, 1L]}
  - fit: front-net
  - open: rear-door
  - remove: rear-net
  - present: {unit: u3, door: rear-door}
  - check: path-clear # for u3
  - push: {unit: u3, crew: 3, through: [outside, 2R]}
  - push: {unit: u3, crew: 3, through: [2R, 3R]}
  - raise: lock-3
  - set: {lamp-switch: "off"}
  - close: lamp-panel
  - check: everyone-out
  - fit: rear-net
  - close: rear-door
  - check: {latched: rear-door, by: closer}
  - close: front-door
  - check: {latched: front-door, by: closer}
  - check: {latched: rear-door, by: second-person}
  - check: {latched: front-door, by: second-person}
"""

PULL_OUT = """\
procedure: p
hold: MR-FWD
operation: unloading
units:
  u23: {type: AKH, bay: "23"}
aboard:
  u22: {type: AKH, bay: "22"}
steps:
  - open: forward-door
  - lower: forward-sill-lock
  - lower: aft-sill-lock
  - check: path-clear
  - pull: {unit: u23, crew: 5, with: pulling-strap, hold: {stop-pedal: down}, through: ["23", outside]}
  - raise: forward-sill-lock
  - raise: aft-sill-lock
  - close: forward-door
  - check: {latched: forward-door, by: closer}
  - check: {latched: forward-door, by: second-person}
"""
