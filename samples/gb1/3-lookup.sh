# In the warm: what was found, against what is specified.
boltwitness compare

# The pipe flange once more, in every unit; and what its torque is in N·m.
boltwitness compare J12 --all-units
boltwitness convert '36 ft·lbf' --to N·m
boltwitness convert '49 N·m'

# The pipe flange on one screen, and all about the bolt that came loose so easily.
boltwitness show J12
boltwitness search hardly any eff
boltwitness show J08/5

# What has to be settled before anything is closed up.
boltwitness audit

# What becomes of each, decided by name. New bolts for the gear (J10) are on
# order, so that hold stays open.
boltwitness settle found-low:J08/5 --as re-torque --why 'seat and thread are clean, its siblings are right' --by KB --at 2025-05-19T16:10
boltwitness settle found-high:J12/3 --as renew --why 'somebody read 49 as ft·lbf; a new bolt is cheaper than a doubt' --by KB --at 2025-05-19T16:12
boltwitness settle found-empty:J03/6 --as renew --why 'nothing lies in the sump or the guard; a new bolt of the same kind goes in' --by LM --at 2025-05-19T16:15
boltwitness settle other-fastener:J05/4 --as repair --why 'goes back to J07/2, where it belongs' --by LM --at 2025-05-19T16:18
boltwitness settle other-fastener:J07/2 --as repair --why 'goes back to J05/4, where it belongs' --by LM --at 2025-05-19T16:18
