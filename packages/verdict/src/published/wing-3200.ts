/**
 * A published solar aircraft of 3.2 m that flew 27 hours in June 2008, as a design file for a blind comparison.
 * Written before its level power was computed. Afterwards only the bank was added, which had been left to a default of
 * circles (docs/whole-aircraft.md).
 *
 * From the publication (A. Noth, Design of Solar Powered Airplanes for Continuous Flight, ETH Zurich Diss. 18010, 2008,
 * and the project's pages): span 3.2 m, wing area 0.776 m2, mass 2.44 kg, 216 cells of 0.512 m2 in all and 16.9 %,
 * airspeed 8.3 m/s. From memory: battery of 1.06 kg and 200 Wh in 8S3P, airframe 0.725 kg, avionics 1.5 W and payload
 * 0.5 W behind a regulator of 65 %, section of 3.5 % camber and 9.3 % thickness, propeller of 0.6 m, 8 g of drive per
 * watt of shaft power. Everything else is what a builder would assume; lines marked so. The published efficiencies of
 * propeller, motor and gear are not used.
 */
export const published3200 = `noonwing: design 1
name: published, 3.2 m
datum: leading edge of the wing at the root
all up mass: 2.44 kg ± 0.03 kg

surfaces:
  wing:
    role: wing
    x: 0 mm
    construction: built-up
    section: {naca: 4409, thickness: 9.3 %}
    incidence: 3 deg                                    # assumed
    stations:                                           # span and area as published, taper and dihedral assumed
      - {y: 0 mm,    chord: 257 mm, dihedral: 2 deg}
      - {y: 1000 mm, chord: 257 mm, leading edge: 0 mm, dihedral: 7 deg}
      - {y: 1600 mm, chord: 180 mm, leading edge: 19 mm}
    controls:
      aileron: {kind: aileron, from: 65 %, to: 97 %, hinge: 78 %}
  tailplane:                                            # assumed: usual tail volume of 0.45
    role: tailplane
    x: 1030 mm
    z: 30 mm
    section: NACA 0008
    stations:
      - {y: 0 mm,   chord: 150 mm}
      - {y: 310 mm, chord: 120 mm, leading edge: 8 mm}
    controls:
      elevator: {kind: elevator, hinge: 70 %}
  fin:                                                  # assumed: usual fin volume of 0.02
    role: fin
    x: 1010 mm
    z: 10 mm
    section: NACA 0008
    stations:
      - {z: 0 mm,   chord: 220 mm}
      - {z: 270 mm, chord: 150 mm, leading edge: 50 mm}
    controls:
      rudder: {kind: rudder, hinge: 62 %}

bodies:                                                 # assumed
  pod:  {length: 720 mm, width: 70 mm, height: 85 mm, x: -330 mm, z: -45 mm}
  boom: {length: 850 mm, diameter: 18 mm, x: 370 mm, z: -5 mm}

extra drag:
  skid, antennas, hatches: 4 cm2 ± 2 cm2                # assumed

masses:
  wing:      {mass: 470 g ± 40 g, on: wing}             # 0.725 kg of airframe, shared out
  pod:       {mass: 110 g ± 20 g, on: pod}
  boom:      {mass: 50 g ± 10 g, on: boom}
  tailplane: {mass: 50 g ± 10 g, on: tailplane}
  fin:       {mass: 30 g ± 8 g, on: fin}
  servos:    {mass: 40 g ± 8 g, x: 100 mm, z: 0 mm}
  autopilot: {mass: 110 g ± 20 g, x: 20 mm, z: -45 mm}

battery:
  cell: {like: lithium-ion 18650 3.0 Ah, capacity: 2.25 Ah}
  layout: 8S3P
  mass: 1.06 kg ± 0.02 kg
  x: 90 mm                                              # assumed: for a static margin of 10 %

drive:
  motor:                                                # assumed: 8 g per watt of 8.7 W shaft power, less the propeller
    mass: 45 g
    speed constant: 320 rpm/V                           # for 60 % of the battery voltage at 1.1 x airspeed / pitch
    gear ratio: 5
    x: -320 mm
    z: -40 mm
  propeller: 600x480 mm                                 # pitch assumed: 0.8 diameters

array:
  cell:
    like: back-contact 125 mm
    length: 74 mm
    width: 32 mm
    area: 23.7 cm2
    short circuit current: 0.853 A
    open circuit voltage: 0.60 V
    maximum power current: 0.801 A
    maximum power voltage: 0.50 V
    mass: 0.9 g
  rows:                                                 # six rows of 36, assumed
    a: {on: wing, from: 1 %, to: 86 %, chord station: 12 %, cells: 36}
    b: {on: wing, from: 1 %, to: 86 %, chord station: 25 %, cells: 36}
    c: {on: wing, from: 1 %, to: 86 %, chord station: 38 %, cells: 36}
    d: {on: wing, from: 1 %, to: 86 %, chord station: 51 %, cells: 36}
    e: {on: wing, from: 1 %, to: 86 %, chord station: 64 %, cells: 36}
    f: {on: wing, from: 1 %, to: 86 %, chord station: 77 %, cells: 36}
  strings:
    a: {rows: [a], converter: front}
    b: {rows: [b], converter: front}
    c: {rows: [c], converter: middle}
    d: {rows: [d], converter: middle}
    e: {rows: [e], converter: rear}
    f: {rows: [f], converter: rear}
  converters:
    front: boost 80 W
    middle: boost 80 W
    rear: boost 80 W

loads:
  avionics and payload: 3.1 W ± 0.4 W

flight:
  airspeed: 8.3 m/s
  bank: 0 deg
`;

/** Calm clear day at the altitude of the published figures, 500 m. */
export const published3200Day = `noonwing: day 1
name: level flight, 3.2 m
place: {at: 47.4 N 8.5 E, altitude: 450 m}
date: 2008-06-20
time zone: +02:00
temperature: 18 degC
night temperature: 12 degC
height: 50 m
sky: clear
`;
