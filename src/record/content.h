#pragma once

#include "record/counted_item.h"
#include "record/disposition.h"
#include "record/final_stripe.h"
#include "record/fluid_amount.h"
#include "record/hold_point.h"
#include "record/joint.h"
#include "record/list_of_kinds.h"
#include "record/logbook_start.h"
#include "record/measured.h"
#include "record/photograph.h"
#include "record/pull.h"
#include "record/recheck.h"
#include "record/removal.h"
#include "record/renewal.h"
#include "record/specified.h"
#include "record/strike.h"
#include "record/tightening.h"
#include "record/wrench.h"

namespace record {

// The one list of the kinds of line. Whatever is done with every kind is folded over it and does
// not build where a kind is left out; DEVELOPERS.md tells what a new one needs. The words are on
// disk and never change.
using Kinds =
    ListOfKinds<KindOfLine<LogbookStart, "start">, KindOfLine<Wrench, "wrench">,
                KindOfLine<Joint, "joint">, KindOfLine<Specified, "specification">,
                KindOfLine<Removal, "removal">, KindOfLine<Measured, "finding">,
                KindOfLine<Pull, "pull">, KindOfLine<FluidAmount, "fluid">,
                KindOfLine<CountedItem, "item">, KindOfLine<ItemReturn, "item return">,
                KindOfLine<HoldPoint, "hold point">, KindOfLine<HoldPointStep, "hold point step">,
                KindOfLine<Renewal, "renewal">, KindOfLine<Tightening, "tightening">,
                KindOfLine<FinalStripe, "stripe">, KindOfLine<Recheck, "recheck">,
                KindOfLine<Photograph, "photograph">, KindOfLine<Disposition, "disposition">,
                KindOfLine<Strike, "strike">>;

// What one line of the logbook can say.
using Content = Kinds::Content;

}  // namespace record
