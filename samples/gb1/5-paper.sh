# Paper for the bench: the blank teardown form, the order of reassembly to tick
# off, labels for the bags.
boltwitness sheet --out sheet.html --at 2025-05-20T08:10
boltwitness sequence --html --out sequence.html --at 2025-05-20T08:10
boltwitness labels --out labels.html --at 2025-05-20T08:10
