# Power is isolated and proved dead, the wicket gates are locked, the shaft is
# blocked. A mark stands on every head. KB breaks loose with a bar and tests,
# pulling on until the mark is past; LM takes out and bags.

# Coupling guard: the sixth hole was empty before anybody touched it.
boltwitness out J03/1-5 --bag A1 --by LM --at 2025-05-13T08:00
boltwitness out J03/6 --broke empty --note 'no bolt, thread clean' --by LM --at 2025-05-13T08:03

# Pipe flange of the oil cooler, tested with TW3 on its own scale. The third
# one is far above the rest.
boltwitness found J12/1 30s 32s 34s 36o 38p --wrench TW3 --by KB --at 2025-05-13T08:06
boltwitness found J12/2 30s 32s 34s 36o 38p --wrench TW3 --by KB --at 2025-05-13T08:09
boltwitness found J12/3 34s 36s 40s 44s 46s 48s 49o 50p --wrench TW3 --by KB --at 2025-05-13T08:12
boltwitness found J12/4 30s 32s 34s 36o 38p --wrench TW3 --by KB --at 2025-05-13T08:15
boltwitness out J12/1-4 --bag A2 --by LM --at 2025-05-13T08:18

# Small covers and fittings.
boltwitness found J01/1 58s 62s 66s 70o 74p --wrench TW5 --by KB --at 2025-05-13T08:21
boltwitness found J01/4 58s 62s 66s 70o 74p --wrench TW5 --by KB --at 2025-05-13T08:24
boltwitness out J01/1-6 --bag A3 --by LM --at 2025-05-13T08:27
boltwitness found J02/1 36s 39s 42s 44o 46p --wrench TW5 --by KB --at 2025-05-13T08:30
boltwitness out J02/1-4 --bag A4 --by LM --at 2025-05-13T08:33
boltwitness found J13/2 8.4s 9s 9.6s 10o 10.4p --wrench TW1 --by KB --at 2025-05-13T08:36
boltwitness out J13/1-3 --bag A5 --by LM --at 2025-05-13T08:39
boltwitness found J11/1 20s 22s 23s 24o 25p --wrench TW2 --by KB --at 2025-05-13T08:42
boltwitness found J11/2 20s 22s 23s 24o 25p --wrench TW2 --by KB --at 2025-05-13T08:45
boltwitness found J11/3 20s 22s 24s 25o 26p --wrench TW2 --by KB --at 2025-05-13T08:48
boltwitness out J11/1-3 --bag A6 --by LM --at 2025-05-13T08:51
boltwitness found J04/1 22s 23s 24s 25o 26p --wrench TW2 --by KB --at 2025-05-13T08:54
boltwitness found J04/3 22s 23s 24s 25o 26p --wrench TW2 --by KB --at 2025-05-13T08:57
boltwitness out J04/1-4 --bag A7 --by LM --at 2025-05-13T09:00

# Torque arm and feet, with the box on stands. Only TW4 reaches so far.
boltwitness found J16/1 350s 370s 380s 390o --wrench TW4 --by KB --at 2025-05-13T09:03
boltwitness out J16/1-2 --broke tight --bag B1 --by LM --at 2025-05-13T09:06
boltwitness found J14/1 190s 200s 206s 210o 214p --wrench TW4 --by KB --at 2025-05-13T09:09
boltwitness found J14/2 190s 200s 206s 210o 214p --wrench TW4 --by KB --at 2025-05-13T09:12
boltwitness out J14/1-4 --bag B2 --by LM --at 2025-05-13T09:15
boltwitness found J15/1 190s 200s 206s 210o 214p --wrench TW4 --by KB --at 2025-05-13T09:18
boltwitness found J15/3 190s 200s 206s 210o 214p --wrench TW4 --by KB --at 2025-05-13T09:21
boltwitness out J15/1-4 --bag B3 --by LM --at 2025-05-13T09:24

# Next morning, the bearing caps. J08/5 moved with hardly any effort.
boltwitness found J08/1 70s 76s 82s 85o 88p --wrench TW2 --by KB --at 2025-05-14T08:00
boltwitness found J08/2 70s 76s 80s 83o 86p --wrench TW2 --by KB --at 2025-05-14T08:03
boltwitness found J08/3 70s 76s 82s 85o 88p --wrench TW2 --by KB --at 2025-05-14T08:06
boltwitness found J08/4 70s 76s 82s 85o 88p --wrench TW2 --by KB --at 2025-05-14T08:09
boltwitness found J08/5 40s 44s 48s 52o 56p --wrench TW2 --by KB --at 2025-05-14T08:12
boltwitness found J08/6 70s 76s 82s 85o 88p --wrench TW2 --by KB --at 2025-05-14T08:15
boltwitness found J08/7 70s 76s 80s 83o 86p --wrench TW2 --by KB --at 2025-05-14T08:18
boltwitness found J08/8 70s 76s 82s 85o 88p --wrench TW2 --by KB --at 2025-05-14T08:21
boltwitness out J08/1-4,6-8 --bag C1 --by LM --at 2025-05-14T08:24
boltwitness out J08/5 --bag C1 --note 'hardly any effort to break loose' --by LM --at 2025-05-14T08:27
boltwitness found J05/1 42s 45s 47s 49o 51p --wrench TW2 --by KB --at 2025-05-14T08:30
boltwitness found J05/2 42s 45s 47s 49o 51p --wrench TW2 --by KB --at 2025-05-14T08:33
boltwitness found J05/3 42s 45s 47s 48o 49p --wrench TW2 --by KB --at 2025-05-14T08:36
boltwitness found J05/4 42s 45s 47s 49o 51p --wrench TW2 --by KB --at 2025-05-14T08:39
boltwitness found J05/5 42s 45s 47s 49o 51p --wrench TW2 --by KB --at 2025-05-14T08:42
boltwitness found J05/6 42s 45s 47s 49o 51p --wrench TW2 --by KB --at 2025-05-14T08:45
boltwitness out J05/1-3,5,6 --bag C2 --by LM --at 2025-05-14T08:48
boltwitness out J05/4 --length 50mm --bag C2 --note 'longer than its siblings' --by LM --at 2025-05-14T08:51
boltwitness found J07/1 42s 45s 47s 49o 51p --wrench TW2 --by KB --at 2025-05-14T08:54
boltwitness found J07/3 42s 45s 47s 49o 51p --wrench TW2 --by KB --at 2025-05-14T08:57
boltwitness found J07/5 42s 45s 47s 49o 51p --wrench TW2 --by KB --at 2025-05-14T09:00
boltwitness out J07/1,3-6 --bag C3 --by LM --at 2025-05-14T09:03
boltwitness out J07/2 --length 35mm --bag C3 --note 'shorter than its siblings' --by LM --at 2025-05-14T09:06

# The case split, from the ends towards the middle. A typing error is struck
# and entered again.
boltwitness found J06/1 70s 74s 77s 80o 83p --wrench TW2 --by KB --at 2025-05-14T09:09
boltwitness found J06/8 70s 74s 77s 80o 83p --wrench TW2 --by KB --at 2025-05-14T09:12
boltwitness found J06/9 70s 74s 77s 80o 83p --wrench TW2 --by KB --at 2025-05-14T09:15
boltwitness found J06/16 70s 74s 77s 80o 83p --wrench TW2 --by KB --at 2025-05-14T09:18
boltwitness found J06/4 70s 74s 77s 78o 79p --wrench TW2 --by KB --at 2025-05-14T09:21
boltwitness found J06/5 70s 74s 77s 78o 79p --wrench TW2 --replace 94 --why 'it was position 5, not 4' --by KB --at 2025-05-14T09:23
boltwitness out J06/1-16 --bag D1 --by LM --at 2025-05-14T09:24

# The inside is behind a hold point: the accumulator of the shaft brake keeps its
# pressure for minutes after the valve is open.
boltwitness hold-point ACC --what 'brake accumulator at 0 bar' --wait 10min --before J09 J10 --by KB --at 2025-05-14T09:10
boltwitness hold-point ACC --begin --by KB --at 2025-05-14T09:14
boltwitness hold-point ACC --pass --note 'gauge at 0 bar, valve locked open' --by LM --at 2025-05-14T09:25

# What came off without a torque is measured or counted.
boltwitness fluid 'gear oil' --drained '11.5 L' --note 'clear, no metal' --by LM --at 2025-05-14T09:25
boltwitness fluid 'gear oil' --drained '650 mL' --note 'from the cooler' --by LM --at 2025-05-14T09:26
boltwitness item CL1 --what 'hose clips of the oil cooler' --count 6 --before J12 --by LM --at 2025-05-14T09:26
boltwitness item CN1 --what 'speed sensor connectors' --count 2 --before J11 --by LM --at 2025-05-14T09:26

# Inside: threadlocker on the retainer plate, one-time bolts in the gear.
boltwitness found J09/1 20s 24s 28s 32o --wrench TW2 --by KB --at 2025-05-14T09:27
boltwitness out J09/1-6 --broke tight --bag E1 --by LM --at 2025-05-14T09:30
boltwitness found J10/1 90s 100s 105s 110o --wrench TW2 --by KB --at 2025-05-14T09:33
boltwitness out J10/1-8 --bag E2 --note 'one-time, do not use again' --by LM --at 2025-05-14T09:36
