#include "support/every_deed.h"

#include <filesystem>
#include <fstream>

#include "support/pictures.h"

std::vector<TypedDeed> every_deed(const TemporaryFolder& folder, const std::string& path) {
  std::ofstream(folder.file("rows.csv"))
      << "joint,holds,size,grade,count\nJ07,plate,M8,8.8,4\nJ08,guard,M8,8.8,4\n";
  std::vector<TypedDeed> deeds = {{"start " + path + " --machine 'pump 4'"},  // line 1
                                  {"wrench TW1 --range '5..60 N·m' --graduation '0.5 N·m'"}};
  for (const std::string code : {"J01", "J02", "J05"}) {  // lines 3 to 8
    deeds.push_back({"joint " + code +
                     " --holds cover --size M8x1.25 --grade 8.8 --count 4 --spec '25 N·m' --source "
                     "'drawing 7'"});
  }
  for (const auto* deed :
       {"found J01/1 20s 25o 26p --wrench TW1",  // 9
        "out J01/1-4",                           // 10
        "out J02/1 --broke sheared",             // 11
        "out J05/2-3 --bag B2", "item CL1 --what clips --count 3",
        "hold-point HV --what dead --before J02", "hold-point HV --pass",
        "tighten J01/1-4 --pass 1", "tighten J01/1-4 --pass 2", "stripe J01/1 --wiped",
        "recheck J01/1 aligned", "fluid oil --drained '1 L'", "item CL1 --back 2",
        "settle break-loose:J02/01 --as renew --why sheared", "renew J02/1 --arrived",
        "out J05/2-3 --bag B9 --replace 12 --why 'another bag'",
        "strike 13 --why 'another machine'"}) {
    deeds.push_back({deed});
  }
  deeds.push_back({"bench J05/3", "s\n"});
  std::ofstream(folder.file("mark.png"), std::ios::binary) << plain_png(3, 2, 120);
  deeds.push_back({"photo J01/1 " + folder.file("mark.png") + " --note 'the mark'"});
  deeds.push_back({"import " + folder.file("rows.csv")});
  // A copy that is gone on with, as the logbook is.
  const auto apart = folder.file("apart.bolts");
  deeds.push_back({"export --to " + folder.file("apart.json")});
  deeds.push_back({"import " + folder.file("apart.json") + " --log " + apart});
  deeds.push_back({"item CL2 --what pins --count 2 --log " + apart});
  deeds.push_back({"item CL3 --what caps --count 2"});
  deeds.push_back({"merge " + apart});
  deeds.push_back({"sign"});
  std::filesystem::create_directory(folder.file("stick"));
  deeds.push_back({"backup " + folder.file("stick")});
  return deeds;
}
