#pragma once

#include <variant>

#include "record/joint.h"
#include "record/logbook_start.h"
#include "record/measured.h"
#include "record/removal.h"
#include "record/specified.h"
#include "record/strike.h"
#include "record/wrench.h"

namespace record {

// What one line of the logbook can say.
using Content = std::variant<LogbookStart, Wrench, Joint, Specified, Removal, Measured, Strike>;

}  // namespace record
