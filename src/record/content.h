#pragma once

#include <variant>

#include "record/counted_item.h"
#include "record/disposition.h"
#include "record/final_stripe.h"
#include "record/fluid_amount.h"
#include "record/hold_point.h"
#include "record/joint.h"
#include "record/logbook_start.h"
#include "record/measured.h"
#include "record/recheck.h"
#include "record/removal.h"
#include "record/renewal.h"
#include "record/specified.h"
#include "record/strike.h"
#include "record/tightening.h"
#include "record/wrench.h"

namespace record {

// What one line of the logbook can say.
using Content = std::variant<LogbookStart, Wrench, Joint, Specified, Removal, Measured, FluidAmount,
                             CountedItem, ItemReturn, HoldPoint, HoldPointStep, Renewal, Tightening,
                             FinalStripe, Recheck, Disposition, Strike>;

}  // namespace record
