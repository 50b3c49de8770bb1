# Invented: the machine, the manual, the people and every number (see
# samples/README.md).

# A new logbook for the annual strip of gearbox GB-1, and the wrenches from
# the box.
boltwitness start gb1.bolts --machine 'GB-1 speed-increaser gearbox, annual strip' --by KB --at 2025-05-12T07:30
boltwitness wrench TW1 --range '2..20 N·m' --graduation '0.2 N·m' --accuracy 3% --calibrated 2025-02-10 --by KB --at 2025-05-12T07:40
boltwitness wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --accuracy 3% --calibrated 2025-02-10 --by KB --at 2025-05-12T07:41
boltwitness wrench TW3 --range '10..75 ft·lbf' --graduation '0.5 ft·lbf' --calibrated 2024-09-03 --by KB --at 2025-05-12T07:42
boltwitness wrench TW4 --range '80..400 N·m' --graduation '2 N·m' --calibrated 2024-03-04 --by KB --at 2025-05-12T07:43
boltwitness wrench TW5 --range '20..150 in·lbf' --graduation '1 in·lbf' --accuracy 3% --calibrated 2025-02-10 --by KB --at 2025-05-12T07:44

# The joints, with what the manual says of them; it gives the covers in in·lbf.
# The breather waits for the cooler pipe, because oil is filled in through it.
# Gear and retainer plate are put together on the bench and out of reach once
# the case is closed; the torque arm pivot gets its torque under load.
boltwitness joint J01 --holds 'inspection cover, aluminium' --size M6x1 --length 16mm --grade 8.8 --count 6 --layout 'rectangle 2x3' --spec '70 in·lbf' --source 'GB-1 Shop Manual rev C p. 31' --after J06 --by LM --at 2025-05-12T08:00
boltwitness joint J02 --holds 'breather cover, aluminium' --size M5x0.8 --length 12mm --grade 8.8 --count 4 --layout circle --spec '44 in·lbf' --source 'GB-1 Shop Manual rev C p. 31' --after J12 --by LM --at 2025-05-12T08:02
boltwitness joint J03 --holds 'coupling guard' --size M8x1.25 --length 16mm --grade 8.8 --count 6 --layout 'rectangle 2x3' --spec '22 N·m' --source 'GB-1 Shop Manual rev C p. 12' --after J05 J08 --by LM --at 2025-05-12T08:04
boltwitness joint J04 --holds 'oil pump' --size M8x1.25 --length 30mm --grade 8.8 --count 4 --layout 'rectangle 2x2' --spec '25 N·m' --source 'GB-1 Shop Manual rev C p. 24' --by LM --at 2025-05-12T08:06
boltwitness joint J05 --holds 'high-speed bearing cap' --size M10x1.5 --length 35mm --grade 8.8 --count 6 --layout circle --spec '49 N·m' --source 'GB-1 Shop Manual rev C p. 18' --condition oiled --after J06 --by LM --at 2025-05-12T08:08
boltwitness joint J06 --holds 'case split' --size M12x1.75 --length 90mm --grade 8.8 --count 16 --layout 'rectangle 2x8' --spec '40 N·m, 60 N·m, 80 N·m' --source 'GB-1 Shop Manual rev C p. 15' --condition oiled --covers J09 J10 --by LM --at 2025-05-12T08:10
boltwitness joint J07 --holds 'intermediate bearing cap' --size M10x1.5 --length 50mm --grade 8.8 --count 6 --layout circle --spec '49 N·m' --source 'GB-1 Shop Manual rev C p. 18' --condition oiled --after J06 --by LM --at 2025-05-12T08:12
boltwitness joint J08 --holds 'low-speed bearing cap' --size M12x1.75 --length 40mm --grade 8.8 --count 8 --layout circle --order 1,5,7,3,2,6,8,4 --spec '85 N·m' --source 'GB-1 Shop Manual rev C p. 19' --condition oiled --after J06 --by LM --at 2025-05-12T08:14
boltwitness joint J09 --holds 'bearing retainer plate' --size M8x1.25 --length 25mm --grade 8.8 --count 6 --layout circle --spec '25 N·m' --source 'GB-1 Shop Manual rev C p. 21' --condition threadlocker --bench --by LM --at 2025-05-12T08:16
boltwitness joint J10 --holds 'low-speed gear on its hub' --size M12x1.25 --length 45mm --grade 10.9 --count 8 --layout circle --spec '60 N·m, +60° (55-65)' --source 'GB-1 Shop Manual rev C p. 22' --one-time --critical --bench --by LM --at 2025-05-12T08:18
boltwitness joint J11 --holds 'speed sensor bracket (not in the manual)' --size M8x1.25 --length 20mm --grade 8.8 --count 3 --layout 'at 0,0 60,0 30,45' --by LM --at 2025-05-12T08:20
boltwitness joint J12 --holds 'oil cooler pipe flange' --size M10x1.5 --length 40mm --grade 8.8 --count 4 --layout 'rectangle 2x2' --passes flange-rounds-few --spec '36 ft·lbf' --source 'GB-1 Shop Manual rev C p. 27' --by LM --at 2025-05-12T08:22
boltwitness joint J13 --holds 'oil level gauge' --size M6x1 --length 20mm --grade 8.8 --count 3 --layout line --spec '9-11 N·m' --source 'GB-1 Shop Manual rev C p. 28' --by LM --at 2025-05-12T08:24
boltwitness joint J14 --holds 'torque arm bracket' --size M16x2 --length 55mm --grade 8.8 --count 4 --layout 'at 0,0 120,0 120,90 0,90' --spec '210 N·m ±8%' --source 'GB-1 Shop Manual rev C p. 9' --by LM --at 2025-05-12T08:26
boltwitness joint J15 --holds 'feet on the frame' --size M16x2 --length 70mm --grade 8.8 --count 4 --layout 'rectangle 2x2' --spec '210 N·m' --source 'GB-1 Shop Manual rev C p. 8' --recheck '50 running h' --by LM --at 2025-05-12T08:28
boltwitness joint J16 --holds 'torque arm pivot' --size M20x2.5 --length 110mm --grade 8.8 --count 2 --spec '390 N·m' --source 'GB-1 Shop Manual rev C p. 9' --after J14 J15 --final-when 'the box is loaded' --recheck '24 h' '50 running h' --by LM --at 2025-05-12T08:30
