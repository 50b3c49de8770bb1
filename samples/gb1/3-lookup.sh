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
