package main

const unitsPage = `UNITS

In a scenario file every quantity carries its unit; a bare number where a unit
is needed is refused. A space between number and unit may be left out.

  time             min, h, s, and together: 1h20min
  temperature      C, F, K
  speed            m/s, km/h, mph, kt
  length           mm, cm, m, in, ft, yd
  weight           kg, g, lb, oz
  volume of water  L, mL, qt, gal
  volume of air    m3, ft3
  area             m2, ft2
  power            W, kW, Btu/h
  density          kg/m3
  loss of a skin   W/m2K
  heat to warm it  kJ/K
  air changes      /h
  clothing         clo
  share            %

Counts (crew, pots of a kind, people) are bare whole numbers; pace and teamwork
are bare numbers. Latitude and longitude are in degrees, north and east
positive, without a unit.

A quantity of work or time is one value, or three: [quick, usual, slow]. The
work of a task is in person-minutes: 24 min of work is done by one person of
usual pace in 24 minutes. "warmby help scenario" has the other ways to write a
quantity that is not always the same.

In what warmby prints, times stand since arrival and on the clock. On the clock
they are whole minutes: of what has come, the minute by which it had; of targets,
of dark and of what begins, the minute that the clock shows then. In JSON and CSV
they are seconds, and names end in the unit.
`

const exitCodesPage = `EXIT CODES

    0  done: the answer is on standard output
    2  the command line cannot be understood
    3  an input file does not hold what it should
    4  a task can never start, and that is asked (check), or leaves nothing to
       play, to search for or to carry (batch, improve, split, cards)
    5  trouble with a file or the system, or a result that must not be trusted
  130  interrupted

A milestone that is never reached is an answer and no mistake: a heater too weak
to warm its shelter, or a task that can never start, gives exit code 0; what was
reached is told, and why the rest never is. When a
command looks at several files, the highest code that one of them calls for
wins. Whatever the code, what went wrong stands on standard error, in a line
that begins with "warmby:", often with a likely cure in a line "hint:".
`
