#include "fastener/settling.h"

namespace fastener {
namespace {

using quantity::Percent;

constexpr double kMostToNeighbours = 35.0;

}  // namespace

LossBand embedding_loss() {
  return {Percent::of_hundred(2.0), Percent::of_hundred(10.0), {"NASA TM-106943", HowKnown::Seen}};
}

LossBand five_day_loss() {
  return {Percent::of_hundred(2.5),
          Percent::of_hundred(6.5),
          {"Munse 1967, quoted by the commentary of the RCSC specification", HowKnown::Seen}};
}

LossBand neighbour_loss(int later, double raised) {
  return {
      Percent::of_hundred(0.0),
      Percent::of_hundred(kMostToNeighbours * later / 2.0 * raised),
      {"tests quoted by a reference page on tightening sequences; its split over two neighbours "
       "is our reading",
       HowKnown::Seen}};
}

}  // namespace fastener
