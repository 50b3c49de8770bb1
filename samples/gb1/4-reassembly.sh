# TW4 is back from calibration. What it found in May stays marked: it was out
# of calibration then.
boltwitness wrench TW4 --calibrated 2025-05-19 --by KB --at 2025-05-20T07:30

# The order of reassembly, with passes, wrench and setting.
boltwitness sequence --at 2025-05-20T08:00

# New bolts for the gear have come, two are still on their way; what else goes
# back.
boltwitness renew J10/1-6 --arrived --by KB --at 2025-05-20T08:10
boltwitness renew
boltwitness fluid
boltwitness item
boltwitness hold-point
