# The last two new bolts of the gear and the one for the guard have come.
boltwitness renew --arrived --by KB --at 2025-05-21T08:06

# The two bolts that had been swapped lie with the joints where they belong.
boltwitness settle other-fastener:J05/4 --done 'the long one is in the bag of J07, for J07/2' --by LM --at 2025-05-21T08:08
boltwitness settle other-fastener:J07/2 --done 'the short one is in the bag of J05, for J05/4' --by LM --at 2025-05-21T08:09

# The gear on its hub, on the bench: torque, then angle; a second person looks.
boltwitness tighten J10/1-8 --pass 1 --by KB --at 2025-05-21T08:12
boltwitness tighten J10/1-8 --pass 2 --turned 60° --by KB --at 2025-05-21T08:18
boltwitness tighten J10/1-8 --check --by LM --at 2025-05-21T08:24
boltwitness stripe J10/1-8 --wiped --by KB --at 2025-05-21T08:30

# The bearing retainer, with fresh threadlocker.
boltwitness tighten J09/1-6 --pass 1 --by KB --at 2025-05-21T08:36
boltwitness stripe J09/1-6 --wiped --by KB --at 2025-05-21T08:42

# The case: three passes, less torque at the four short bolts.
boltwitness tighten J06/1-16 --pass 1 --by KB --at 2025-05-21T08:48
boltwitness tighten J06/1,3-6,8-9,11-14,16 --pass 2 --by KB --at 2025-05-21T08:54
boltwitness tighten J06/2,15,10,7 --pass 2 --by KB --at 2025-05-21T09:00
boltwitness tighten J06/1,3-6,8-9,11-14,16 --pass 3 --by KB --at 2025-05-21T09:06
boltwitness tighten J06/2,15,10,7 --pass 3 --by KB --at 2025-05-21T09:12
boltwitness stripe J06/1-16 --wiped --by KB --at 2025-05-21T09:18

# The bearing caps.
boltwitness tighten J07/1-6 --pass 1 --by KB --at 2025-05-21T09:24
boltwitness tighten J07/1-6 --pass 2 --by KB --at 2025-05-21T09:30
boltwitness tighten J07/1-6 --pass 3 --by KB --at 2025-05-21T09:36
boltwitness stripe J07/1-6 --wiped --by KB --at 2025-05-21T09:42
boltwitness tighten J05/1-6 --pass 1 --by KB --at 2025-05-21T09:48
boltwitness tighten J05/1-6 --pass 2 --by KB --at 2025-05-21T09:54
boltwitness tighten J05/1-6 --pass 3 --by KB --at 2025-05-21T10:00
boltwitness stripe J05/1-6 --wiped --by KB --at 2025-05-21T10:06
boltwitness tighten J08/1-8 --pass 1 --by KB --at 2025-05-21T10:12
boltwitness tighten J08/1-8 --pass 2 --by KB --at 2025-05-21T10:18
boltwitness tighten J08/1-8 --pass 3 --by KB --at 2025-05-21T10:24
boltwitness stripe J08/1-8 --wiped --by KB --at 2025-05-21T10:30

# Feet and torque arm; its pivot only snug until the box is loaded.
boltwitness tighten J15/1-4 --pass 1 --by KB --at 2025-05-21T10:36
boltwitness tighten J15/1-4 --pass 2 --by KB --at 2025-05-21T10:42
boltwitness tighten J15/1-4 --pass 3 --by KB --at 2025-05-21T10:48
boltwitness stripe J15/1-4 --wiped --counter '0 running h' --by KB --at 2025-05-21T10:54
boltwitness tighten J14/1-4 --pass 1 --by KB --at 2025-05-21T11:00
boltwitness tighten J14/1-4 --pass 2 --by KB --at 2025-05-21T11:06
boltwitness tighten J14/1-4 --pass 3 --by KB --at 2025-05-21T11:12
boltwitness stripe J14/1-4 --wiped --by KB --at 2025-05-21T11:18
boltwitness tighten J16/1-2 --pass 1 --by KB --at 2025-05-21T11:24

# Pump, sensor, gauge and covers.
boltwitness tighten J04/1-4 --pass 1 --by KB --at 2025-05-21T11:30
boltwitness tighten J04/1-4 --pass 2 --by KB --at 2025-05-21T11:36
boltwitness stripe J04/1-4 --wiped --by KB --at 2025-05-21T11:42
boltwitness item CN1 --back 2 --by LM --at 2025-05-21T11:48
boltwitness tighten J11/1-3 --pass 1 --by KB --at 2025-05-21T11:54
boltwitness stripe J11/1-3 --wiped --by KB --at 2025-05-21T12:00
boltwitness tighten J13/1-3 --pass 1 --by KB --at 2025-05-21T12:06
boltwitness stripe J13/1-3 --wiped --by KB --at 2025-05-21T12:12
boltwitness tighten J01/1-6 --pass 1 --by KB --at 2025-05-21T12:18
boltwitness tighten J01/1-6 --pass 2 --by KB --at 2025-05-21T12:24
boltwitness stripe J01/1-6 --wiped --by KB --at 2025-05-21T12:30

# Cooler pipe: its clips first, then four rounds. Oil goes in through the breather.
boltwitness item CL1 --back 6 --by LM --at 2025-05-21T12:36
boltwitness tighten J12/1-4 --pass 1 --by KB --at 2025-05-21T12:42
boltwitness tighten J12/1-4 --pass 2 --by KB --at 2025-05-21T12:48
boltwitness tighten J12/1-4 --pass 3 --by KB --at 2025-05-21T12:54
boltwitness tighten J12/1-4 --pass 4 --by KB --at 2025-05-21T13:00
boltwitness stripe J12/1-4 --wiped --by KB --at 2025-05-21T13:06
boltwitness fluid 'gear oil' --filled '12.15 L' --by LM --at 2025-05-21T13:12
boltwitness tighten J02/1-4 --pass 1 --by KB --at 2025-05-21T13:18
boltwitness tighten J02/1-4 --pass 2 --by KB --at 2025-05-21T13:24
boltwitness stripe J02/1-4 --wiped --by KB --at 2025-05-21T13:30

# The guard closes over the bearing caps.
boltwitness tighten J03/1-6 --pass 1 --by KB --at 2025-05-21T13:36
boltwitness tighten J03/1-6 --pass 2 --by KB --at 2025-05-21T13:42
boltwitness stripe J03/1-6 --wiped --by KB --at 2025-05-21T13:48

# Where the job stands: the pivot waits for the load.
boltwitness tighten --at 2025-05-21T16:00

# The box hangs loaded: the pivot gets its final value.
boltwitness tighten J16/1-2 --pass 2 --by LM --at 2025-05-22T09:02
boltwitness tighten J16/1-2 --pass 3 --by LM --at 2025-05-22T09:03
boltwitness stripe J16/1-2 --wiped --counter '0 running h' --by LM --at 2025-05-22T09:10

# Nothing is open any more.
boltwitness sequence --status --at 2025-05-22T09:20

# The day after, under load: the pivot's stripe is looked at, as the manual asks.
boltwitness recheck J16/1-2 aligned --counter '20 running h' --by LM --at 2025-05-23T09:30
boltwitness recheck --counter '20 running h' --at 2025-05-23T09:35

# What was decided stays on record beside what the audit found.
boltwitness audit --all --at 2025-05-23T10:00

# The whole job on paper, to file.
boltwitness report --out report.html --at 2025-05-23T10:00
