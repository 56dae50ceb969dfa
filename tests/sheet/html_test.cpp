/// Words as HTML: nothing that a study says becomes markup, and numbers are set as a drawing sets them.
#include <catch2/catch.hpp>

#include "studies/keep/digest.hpp"
#include "studies/sheet/figure_files.hpp"
#include "studies/sheet/html.hpp"
#include "tests/ask/read_text.hpp"
#include "tests/read/study_texts.hpp"

using namespace studies;
using namespace studies::sheet;

TEST_CASE("No character of a text becomes markup, and control characters become blanks") {
  CHECK(escaped("<script>\"a\" & 'b'</script>") == "&lt;script&gt;&quot;a&quot; &amp; &#39;b&#39;&lt;/script&gt;");
  CHECK(escaped("a\x01\x1b[2Jb") == "a  [2Jb");
  CHECK(escaped("\xff\xfe") == "??");
  CHECK(printed("1 < 2") == "1 &lt; 2");
}

TEST_CASE("Groups of three keep together by thin blanks, numbers and units by fixed ones, and minus is a minus") {
  CHECK(set_in_type("1 048 576 passes") == "1\u202f048\u202f576 passes");
  CHECK(set_in_type("10 200 lbf") == "10\u202f200\u00a0lbf");
  CHECK(set_in_type("97 of 100 pulls") == "97 of 100 pulls");
  CHECK(set_in_type("has -3.8 %, asked 2-4 Acme") == "has \u22123.8\u00a0%, asked 2-4 Acme");
  CHECK(set_in_type("112 N.m and 82.6 lbf.ft.") == "112\u00a0N·m and 82.6\u00a0lbf·ft.");
  CHECK(set_in_type("2026 125 lb") == "2026 125\u00a0lb");  // no number begins with four digits and a group
  CHECK(unit_in_type("N.m") == "N·m");
}

TEST_CASE("Quantities in a sentence get their value in the other system, and nothing else does") {
  const Study metric = tests::study_of(clamp_text, Verb::rate), inch = tests::study_of(lift_text, Verb::rate);
  // 22 kN / 4.4482216152605 N = 4946 lbf; 60 mm / 25.4 = 2.36 in (NIST SP 811, exact factors)
  CHECK(with_other("Reaches 22 kN in 97 of 100 pulls.", metric) ==
        "Reaches 22\u00a0kN <span class=o>[4950\u00a0lbf]</span> in 97 of 100 pulls.");
  CHECK(with_other("60 mm nut", metric) == "60\u00a0mm <span class=o>[2.36\u00a0in]</span> nut");
  CHECK(with_other("from 3.12 in 100", metric) == "from 3.12\u00a0in 100");
  CHECK(with_other("from 3.12 in 100", inch) == "from 3.12\u00a0in 100");
  CHECK(with_other("1.5 in nut, 2.01 lb", inch) ==
        "1.5\u00a0in <span class=o>[38.1\u00a0mm]</span> nut, 2.01\u00a0lb <span class=o>[912\u00a0g]</span>");
  CHECK(with_other("Tr 40x7 of 12 000 N.m", metric) ==
        "Tr 40x7 of 12\u202f000\u00a0N·m <span class=o>[8850\u00a0lbf·ft]</span>");
  CHECK(with_other("<b> 5 kg", metric) == "&lt;b&gt; 5\u00a0kg <span class=o>[11\u00a0lb]</span>");
}

TEST_CASE("Text inside a style sheet or a script cannot end it") {
  CHECK(css_string("a\"b\\c</style>") == "\"a\\22 b\\5c c\\3c \\2f style\\3e \"");
  CHECK(in_script(R"({"a":"</script><!--"})") == R"({"a":"\u003c/script>\u003c!--"})");
  CHECK(as_script("x=\"</script>\";/*<!--*/") == "x=\"<\\/script>\";/*<\\!--*/");
}

TEST_CASE("The digest of a script is that of FIPS 180-4, in base 64 as policies write it") {
  // FIPS 180-4 example "abc": ba7816bf 8f01cfea 414140de 5dae2223 b00361a3 96177a9c b410ff61 f20015ad
  CHECK(sha256_base64("abc") == "ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
}

TEST_CASE("A table as CSV quotes what RFC 4180 asks to be quoted") {
  CHECK(csv({{"a", "b,c"}, {{"say \"so\"", "2\n3"}}}) == "a,\"b,c\"\n\"say \"\"so\"\"\",\"2\n3\"\n");
}
