/**
 * A published solar aircraft of 5.69 m that flew 81 hours in July 2015, as a design file for a blind comparison.
 * Written before its level power was computed. Afterwards only the bank was added, which had been left to a default of
 * circles (docs/whole-aircraft.md).
 *
 * From the publication (P. Oettershagen et al., J. Field Robotics 34(7), 1352-1377, 2017, and the project's pages):
 * span 5.69 m, wing area 1.72 m2, chord 0.305 m, mass 6.93 kg, airspeed 8.4 m/s. From memory: battery 2.92 kg, 705 Wh,
 * 6S10P; 88 back-contact cells of 153 cm2 and 23.7 %; avionics 6 W; section of 4 % camber and 11 % thickness; propeller
 * of 0.66 m. Everything else is what a builder would assume; lines marked so.
 */
export const published5690 = `noonwing: design 1
name: published, 5.69 m
datum: leading edge of the wing at the root
all up mass: 6.93 kg ± 0.05 kg

surfaces:
  wing:
    role: wing
    x: 0 mm
    construction: built-up
    section: NACA 4411
    incidence: 4 deg                                    # assumed
    stations:                                           # span, area, chord as published, taper and dihedral assumed
      - {y: 0 mm,    chord: 305 mm, dihedral: 1 deg}
      - {y: 2350 mm, chord: 305 mm, leading edge: 0 mm, dihedral: 7 deg}
      - {y: 2845 mm, chord: 275 mm, leading edge: 7 mm}
    controls:
      aileron: {kind: aileron, from: 70 %, to: 98 %, hinge: 80 %}
  tailplane:                                            # assumed: usual tail volume of 0.45
    role: tailplane
    x: 1390 mm
    z: 30 mm
    section: NACA 0008
    stations:
      - {y: 0 mm,   chord: 195 mm}
      - {y: 480 mm, chord: 165 mm, leading edge: 8 mm}
    controls:
      elevator: {kind: elevator, hinge: 70 %}
  fin:                                                  # assumed: usual fin volume of 0.02
    role: fin
    x: 1340 mm
    z: 10 mm
    section: NACA 0008
    stations:
      - {z: 0 mm,   chord: 340 mm}
      - {z: 500 mm, chord: 240 mm, leading edge: 70 mm}
    controls:
      rudder: {kind: rudder, hinge: 62 %}

bodies:                                                 # assumed
  pod:  {length: 800 mm, width: 90 mm, height: 110 mm, x: -400 mm, z: -55 mm}
  boom: {length: 1250 mm, diameter: 28 mm, x: 350 mm, z: -10 mm}

extra drag:
  antennas, hatches, gaps: 8 cm2 ± 3 cm2                # assumed

masses:                                                 # airframe 2.2 to 2.6 kg, shared out
  wing:      {mass: 1750 g ± 150 g, on: wing}
  pod:       {mass: 250 g ± 50 g, on: pod}
  boom:      {mass: 150 g ± 30 g, on: boom}
  tailplane: {mass: 130 g ± 25 g, on: tailplane}
  fin:       {mass: 100 g ± 20 g, on: fin}
  servos:    {mass: 120 g ± 20 g, x: 150 mm, z: 0 mm}
  autopilot and radio: {mass: 350 g ± 80 g, x: 20 mm, z: -45 mm}

battery:
  cell: {like: lithium-ion 18650 3.4 Ah}
  layout: 6S10P
  capacity: 705 Wh
  mass: 2.92 kg ± 0.02 kg
  x: 60 mm                                              # assumed: for a static margin of 10 %

drive:
  motor:
    mass: 150 g                                         # assumed, gear included
    speed constant: 400 rpm/V                           # for 60 % of the battery voltage at 1.1 x airspeed / pitch
    gear ratio: 5
    x: -390 mm
    z: -50 mm
  propeller: 660x528 mm                                 # pitch assumed: 0.8 diameters

array:
  cell:
    like: back-contact 125 mm
    area: 153 cm2
    short circuit current: 6.4 A
    open circuit voltage: 0.70 V
    maximum power current: 6.01 A
    maximum power voltage: 0.603 V
  rows:
    front right: {on: wing, side: right, from: 1 %, to: 99 %, chord station: 30 %, cells: 22}
    rear right:  {on: wing, side: right, from: 1 %, to: 99 %, chord station: 72 %, cells: 22}
    front left:  {on: wing, side: left, from: 1 %, to: 99 %, chord station: 30 %, cells: 22}
    rear left:   {on: wing, side: left, from: 1 %, to: 99 %, chord station: 72 %, cells: 22}
  strings:
    front right: {rows: [front right], converter: front right}
    rear right:  {rows: [rear right], converter: rear right}
    front left:  {rows: [front left], converter: front left}
    rear left:   {rows: [rear left], converter: rear left}
  converters:
    front right: boost 80 W
    rear right: boost 80 W
    front left: boost 80 W
    rear left: boost 80 W

loads:
  avionics: 6 W ± 0.6 W

flight:
  airspeed: 8.4 m/s
  bank: 0 deg
`;

/** Calm clear day at the place of the published flight. */
export const published5690Day = `noonwing: day 1
name: level flight, 5.69 m
place: {at: 47.6 N 8.5 E, altitude: 500 m}
date: 2015-07-14
days: 3
time zone: +02:00
temperature: 22 degC
night temperature: 14 degC
height: 100 m
sky: clear
`;
