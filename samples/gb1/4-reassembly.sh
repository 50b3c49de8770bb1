# TW4 is back from calibration. What it found in May stays marked: it was out
# of calibration then.
boltwitness wrench TW4 --calibrated 2025-05-19 --by KB --at 2025-05-20T07:30

# Read again before the case is closed: a note on page 15 asks less of the four
# short bolts beside the dowels.
boltwitness joint J06/2,7,10,15 --spec '40 N·m, 55 N·m, 70 N·m' --source 'GB-1 Shop Manual rev C p. 15, note 3' --condition oiled --by LM --at 2025-05-20T07:40

# The order of reassembly, with passes, wrench and setting.
boltwitness sequence --at 2025-05-20T08:00

# New bolts for the gear have come, two are still on their way; what else goes
# back.
boltwitness renew J10/1-6 --arrived --by KB --at 2025-05-20T08:10
boltwitness renew
boltwitness fluid
boltwitness item
boltwitness hold-point
