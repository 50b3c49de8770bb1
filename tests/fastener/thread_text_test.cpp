#include "fastener/thread_text.h"

#include "failure/failure.h"
#include "fastener/thread_generator.h"
#include "support/catch.h"

namespace thread_text_test {

using fastener::Hand;
using fastener::read_thread;
using fastener::Thread;
using fastener::ThreadSeries;
using fastener::write_exact;

TEST_CASE("a thread is read however people write it", "[fastener]") {
  const auto all_read_as = [](const char* canonical, std::initializer_list<const char*> spellings) {
    for (const auto* spelling : spellings) {
      INFO(spelling);
      CHECK(write_exact(read_thread(spelling)) == canonical);
    }
  };
  all_read_as("M10x1.5", {"M10", "m10", " M 10 ", "M10x1.5", "M10X1,5", "M10-6g", "M10x1.50-6H"});
  all_read_as("M10x1.25", {"M10x1.25", "m10 x 1,25", "M10×1.25", "M10*1.25", "M10-1.25", "M10–1.25",
                           "M10 x 1.25 - 4g6g"});
  all_read_as("M10x1.5-LH", {"M10 LH", "M10x1.5-LH", "m10-lh"});
  all_read_as("M1.6x0.35", {"M1.6", "M1,6"});
  all_read_as("#4-40 UNC", {"#4-40", "4-40", "# 4-40", "no. 4-40", "No4-40", "#4-40 UNC-2A"});
  all_read_as("#10-32 UNF", {"#10-32", "10-32", "10-32 UNF", ".190-32", "0.190-32"});
  all_read_as("#2-56 UNC", {"2-56", "#2-56"});
  all_read_as("2-4.5 UNC", {"2-4.5", "2 UNC", "2\"-4.5"});
  all_read_as("1/4-20 UNC", {"1/4-20", "1/4\"-20", "1/4 - 20", "1/4 in-20", "1/4 UNC", ".250-20",
                             "1/4-20unc", "1/4-20 NC", "1/4-20 UNC-2A", "1/4 20"});
  all_read_as("3/8-16 UNC", {"3/8-16 UNC", "3/8-16", "3/8″-16"});
  all_read_as("3/8-24 UNF-LH", {"3/8-24 LH", "3/8-24 UNF-LH"});
  all_read_as("1-8 UNC", {"1-8", "1\"-8", "1 unc"});
  all_read_as("1-1/8-7 UNC", {"1 1/8-7", "1-1/8-7", "1-1/8 UNC", "1.125-7"});
  all_read_as("1-1/8-8 UN", {"1-1/8-8", "1 1/8-8 UN", "1-1/8 8UN"});
  all_read_as("1-14", {"1-14", "1-14 UNS"});
  all_read_as("1-32", {"1-32", "1\"-32"});
  all_read_as("2\"-56", {"2\"-56", "2 in-56"});
  all_read_as("5/8-11 UNC", {"5/8-11"});
}

TEST_CASE("a thread knows its series and its measures", "[fastener]") {
  CHECK(read_thread("M12").series() == ThreadSeries::MetricCoarse);
  CHECK(read_thread("M12x1.25").series() == ThreadSeries::MetricFine);
  CHECK(read_thread("M12x1.1").series() == ThreadSeries::MetricOther);
  CHECK(read_thread("1/2-13").series() == ThreadSeries::Unc);
  CHECK(read_thread("1/2-20").series() == ThreadSeries::Unf);
  CHECK(read_thread("1-1/4-8").series() == ThreadSeries::EightUn);
  CHECK(read_thread("1/2-16").series() == ThreadSeries::UnifiedOther);
  CHECK(read_thread("M12x1.25").diameter() == quantity::Length::millimetres(12));
  CHECK(read_thread("M12x1.25").pitch() == quantity::Length::millimetres(1.25));
  CHECK(read_thread("1/2-20").diameter() == quantity::Length::inches(0.5));
  CHECK(read_thread("1/2-20").pitch() == quantity::Length::inches(0.05));
  CHECK(read_thread("1/2-20").threads_per_inch() == 20.0);
  CHECK_FALSE(read_thread("M12").threads_per_inch().has_value());
  CHECK(read_thread("M12-LH").hand() == Hand::Left);
}

TEST_CASE("a thread that no standard lists is taken with a note", "[fastener]") {
  CHECK_THAT(*read_thread("M10x1.1").note(), ContainsSubstring("ISO 261 lists 1.5, 1.25, 1, 0.75"));
  CHECK_THAT(*read_thread("M13x1").note(), ContainsSubstring("does not list this diameter"));
  CHECK_THAT(*read_thread("1/2-16").note(), ContainsSubstring("neither UNC, UNF nor 8UN"));
  CHECK_FALSE(read_thread("M10x1.25").note().has_value());
  CHECK_FALSE(read_thread("1-8").note().has_value());
}

TEST_CASE("what is no thread is refused with what to try", "[fastener]") {
  const auto refused = [](const char* text, const char* why) {
    INFO(text);
    CHECK_THROWS_WITH(read_thread(text), ContainsSubstring(why));
    CHECK_THROWS_AS(read_thread(text), failure::InputError);
  };
  refused("", "expected a metric thread");
  refused("ten", "expected a metric thread");
  refused("M", "no number here");
  refused("M0", "from 1.6 to 64 mm");
  refused("M640", "from 1.6 to 64 mm");
  refused("M0x1", "from 1.6 to 64 mm");
  refused("M10x15", "from 0.2 to 2.5 mm");
  refused("M10x40", "a bolt's length is no part");
  refused("M10x0.01", "from 0.2 to 2.5 mm");
  refused("M10x1.5x40", "write the thread alone");
  refused("M10 fine", "behind an x");
  refused("M15", "such as M15x1.5");
  refused("M13", "such as M13x1");
  refused("M-10", "minus sign");
  refused("M10x1,250", "thousands");
  refused("3/8", "such as 3/8-16");
  refused("3/7-16", "no unified thread size");
  refused("#7-32", "no unified thread size");
  refused("10", "such as #10-24");
  refused("7-20", "no unified thread size");
  refused("1/4-2", "threads per inch on this size, such as 1/4-20");
  refused("1/4-200", "threads per inch on this size");
  refused("3/8-16 UNF", "is UNC");
  refused("3/8-16x2", "no length");
  refused("2 UNF", "write the threads per inch");
  refused("G1/2", "expected a metric thread");
  refused("1/2 BSP", "expected a number first");
  refused("M10x1.5xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx", "too long");
}

TEST_CASE("a written thread reads back as itself", "[fastener]") {
  holds_always("read(write(thread)) is the thread", [] {
    const Thread thread = *rc::gen::arbitrary<Thread>();
    RC_ASSERT(read_thread(write_exact(thread)) == thread);
  });
}

TEST_CASE("no text brings the thread reader down", "[fastener]") {
  const auto survives = [](const std::string& text) {
    try {
      const auto thread = read_thread(text);
      RC_ASSERT(read_thread(write_exact(thread)) == thread);
    } catch (const failure::InputError& error) {
      RC_ASSERT(!std::string(error.what()).empty());
    }
  };
  holds_always("any bytes", [&] { survives(*rc::gen::arbitrary<std::string>()); });
  holds_always("letters that threads are made of", [&] {
    survives(*rc::gen::container<std::string>(
        rc::gen::elementOf(std::string("Mm#0123456789./-x\",UuNnFfCcLlHhGg× "))));
  });
}

}  // namespace thread_text_test
