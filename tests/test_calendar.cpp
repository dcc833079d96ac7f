// Days and times as ISO 8601 writes them.
#include "catch.hpp"
#include "gelwright/calendar.hpp"

using namespace gelwright;

TEST_CASE("a day counts from 1970 (days between dates: POSIX, seconds since the Epoch)") {
  // POSIX example values: 2001-09-09T01:46:40Z is second 1 000 000 000.
  CHECK(read_local_time("2001-09-09T01:46")->minutes == 1000000000 / 60);
  CHECK(read_day("1970-01-01")->minutes == 0);
  CHECK(read_day("2000-03-01")->minutes - read_day("2000-02-28")->minutes == 2 * 24 * 60);
  CHECK(read_day("1900-03-01")->minutes - read_day("1900-02-28")->minutes == 24 * 60);
}

TEST_CASE("what is read is written back the same") {
  for (const char* text : {"1900-01-01", "1999-12-31", "2024-02-29", "2999-12-31"})
    CHECK(day_text(*read_day(text)) == text);
  CHECK(time_text(*read_local_time("1969-12-31T23:59")) == "1969-12-31 23:59");
  CHECK(time_text(*read_local_time("2026-07-04 08:00")) == "2026-07-04 08:00");
}

TEST_CASE("no other writing is taken") {
  for (const char* text :
       {"", "2026", "2026-7-4", "04.07.2026", "07/04/2026", "2026/07/04", "2026-02-29",
        "2026-13-01", "2026-00-10", "2026-01-32", "1899-12-31", "3000-01-01", "2026-07-04T",
        "20260704", "+026-07-04", "2026-07-0a", "today"})
    CHECK_FALSE(read_day(text));
  for (const char* text : {"2026-07-04T24:00", "2026-07-04T08:60", "2026-07-04T8:00",
                           "2026-07-04T08:00:00", "2026-07-04T08:00Z", "2026-07-04"})
    CHECK_FALSE(read_local_time(text));
}
