#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "phone/desk.h"
#include "support/catch.h"
#include "support/trial.h"
#include "support/tried_phone.h"

// A small job that is served: a wrench, J06 with three bolts, and phones that ask for it without a
// network between.
class ServedJob {
 public:
  ServedJob() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("job.bolts");
    trial.done("start " + trial.folder().file("job.bolts") + " --machine 'GB-1 gearbox'");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-05-02");
    trial.done(
        "joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 3 --layout line "
        "--spec "
        "'40 N·m, 80 N·m' --source 'GB-1 Shop Manual p. 12' --condition oiled");
  }

  [[nodiscard]] phone::Place place() {
    phone::Place place;
    place.logbook = trial.folder().file("job.bolts");
    place.folder = trial.folder().path() / "own";
    place.now = [this] { return trial.now; };
    place.device = [this] { return trial.device; };
    return place;
  }

  Trial trial;
};
