#pragma once

#include <map>
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "logbook/logbook.h"
#include "record/moment.h"

namespace phone {

// What a page shows, from the logbook as it is at this moment. A Failure says why it cannot be
// shown; what only stands in the way of going on is in it, as "refused".

// {"machine","status": as status --json,"joints":[{"joint","holds","kind","count","apart"}],
// "photographs":[those of the machine, as photo --json, the newest first]}
[[nodiscard]] nlohmann::ordered_json home_view(const logbook::Logbook& logbook, record::Moment now);

// What a page names of what it shows: joint and position, and what it has chosen itself.
using Chosen = std::map<std::string, std::string>;

// The teardown of the joint:
// {"joint","holds","opening","refused"|null,"again"|null,"warnings":[..],
// "broke":[words],"positions":[{"position","state":"in","testing","untested" (out, its test to
// come) or "done","bag","readings":[{"setting","mark"}],"nothing"|null, and for the next positions
// alone "wrench","unit","ladder":[{"setting","why"}],"stop"|null,"wrenches":{..}|null}]}. "ladder"
// is what is to be pulled at as long as the mark stays short, so that a page goes on without a
// link. `wrench` chooses one, `restart` how pulls are started.
[[nodiscard]] nlohmann::ordered_json teardown_view(const logbook::Logbook& logbook,
                                                   record::Moment now, const Chosen& chosen);

// The reassembly of the joint, or of the job where none is chosen: {"joint"|null,"refused"|null,
// "unmet":{"joint","says":[..]}|null, where the next step is the first of its joint,"mark_first":
// {"joint","counter": its
// unit|null,"unchecked":"1-4"|null,"unstriped":"1-4"|null,"says"}|null,"steps": screen::steps_json,
// "done","of","stripes":[..],"wrenches":[..]}
[[nodiscard]] nlohmann::ordered_json tighten_view(const logbook::Logbook& logbook,
                                                  record::Moment now, const Chosen& chosen);

// Final stripes: {"due":[{"joint","holds","positions","counter": its unit|null}],"why_not":[..],
// "looks":[{"says","overdue"}],"striped":[as "due"]}
[[nodiscard]] nlohmann::ordered_json stripe_view(const logbook::Logbook& logbook,
                                                 record::Moment now);

// A joint, or a position of it: {"joint","holds","kind","in_short","map": its drawing as markup,
// "specified":[..],"positions":[{"position","found"|null}],"chosen":[positions],"photographs":[as
// photo --json, the newest first],"position": as show --json, with "found"|null, "specified" and
// "says":[what the audit has against it]|null}; "found" is {"says","units","verdict"}.
[[nodiscard]] nlohmann::ordered_json look_up_view(const logbook::Logbook& logbook,
                                                  record::Moment now, const Chosen& chosen);

// Photographs, the newest first: {"photographs":[as photo --json],
// "joints":[{"joint","holds"}],"deviations":[{"id","says"}]}. `of` names what they are of.
[[nodiscard]] nlohmann::ordered_json photographs_view(const logbook::Logbook& logbook,
                                                      record::Moment now, const Chosen& chosen);

// The member of this name, or nothing.
[[nodiscard]] std::string chosen_text(const Chosen& chosen, const std::string& name);

}  // namespace phone
