#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>

#include "engine/base/error.hpp"
#include "engine/store/reader.hpp"
#include "engine/store/seal.hpp"
#include "engine/store/writer.hpp"
#include "sample_answer.hpp"

using engine::Stored;
using engine::StoredVariable;
using engine::StoreReader;
using engine::StoreWriter;

namespace {

const StoredVariable share{"/a", "share", Stored::f64, {"share"}, "1", "share", ""};
const StoredVariable word{"/a", "word", Stored::text, {"word"}, "1", "word", ""};
const StoredVariable table{"/a", "table", Stored::f64, {"word", "share"}, "N m", "table", ""};
const StoredVariable rough{"/a/b", "rough", Stored::f32, {"row"}, "Pa", "rough", ""};
const StoredVariable count{"/a/b", "count", Stored::i64, {"row"}, "1", "count", ""};
const StoredVariable flag{"/a/b", "flag", Stored::u8, {"row"}, "1", "flag", ""};
const StoredVariable single{"/a", "single", Stored::f64, {}, "m", "single", ""};

constexpr std::size_t rows = 100000;  // more than one chunk

void write(const std::string& path, bool commit = true) {
  StoreWriter file(path);
  file.attribute("/", "format", std::string("test-format"));
  file.attribute("/", "format_version", std::int64_t{3});
  file.attribute("/", "program", std::string("a tool"));
  file.attribute("/", "program_version", std::string("9.1"));
  file.attribute("/", "key", std::uint64_t{18446744073709551615u});
  file.attribute("/", "number", 0.1);
  file.attribute("/", "nothing", std::string());
  file.put(share, std::vector<double>{0.05, 0.5});
  file.put(word, std::vector<std::string>{"µ", "", "long — word"});
  file.put(table, std::vector<double>{1, 2, 3, 4, 5, std::nan("")});
  file.dimension("/a/b", "row", rows);
  file.put(rough, std::vector<float>(rows, 0.25F));
  std::vector<std::int64_t> counts(rows);
  for (std::size_t i = 0; i < rows; ++i) counts[i] = -static_cast<std::int64_t>(i);
  file.put(count, counts);
  file.put(flag, std::vector<std::uint8_t>(rows, 1));
  file.put(single, std::vector<double>{0.04});
  file.put(StoredVariable{"", "note", Stored::text, {}, "1", "note", ""}, std::vector<std::string>{"line\nline"});
  if (commit) file.commit();
}

std::string refusal(const std::string& path) {
  try {
    StoreReader(path).check();
  } catch (const engine::Refusal& refused) {
    CHECK(refused.code() == engine::ExitCode::files);
    return refused.what();
  }
  return "";
}

}  // namespace

TEST_CASE("What is put into a store comes back as it was") {
  const sample::Folder folder;
  write(folder / "a.h5");
  const StoreReader file(folder / "a.h5");
  CHECK(file.text_attribute("/", "format") == "test-format");
  CHECK(file.count_attribute("/", "key") == 18446744073709551615u);
  CHECK(file.number_attribute("/", "number") == 0.1);
  CHECK(file.text_attribute("/", "nothing") == "");
  CHECK_FALSE(file.text_attribute("/", "absent"));
  CHECK(file.texts("/a/word") == std::vector<std::string>{"µ", "", "long — word"});
  const auto values = file.numbers("/a/table");
  CHECK(std::vector<double>(values.begin(), values.end() - 1) == std::vector<double>{1, 2, 3, 4, 5});
  CHECK(std::isnan(values.back()));
  CHECK(file.shape("/a/table") == std::vector<std::size_t>{3, 2});
  CHECK(file.whole_numbers("/a/b/count")[70000] == -70000);
  CHECK(file.numbers("/a/b/rough") == std::vector<double>(rows, 0.25));
  CHECK(file.numbers("/a/single") == std::vector<double>{0.04});
  CHECK(file.text("/note") == "line\nline");
  CHECK(file.has("/a/b/count"));
  CHECK_FALSE(file.has("/a/c/count"));
  CHECK(file.check() == 8);
}

TEST_CASE("A store describes its variables as they were declared") {
  const sample::Folder folder;
  write(folder / "a.h5");
  const StoreReader file(folder / "a.h5");
  for (const StoredVariable& each : file.variables()) {
    INFO(each.path());
    for (const StoredVariable& declared : {share, word, table, rough, count, flag, single}) {
      if (declared.path() != each.path()) continue;
      CHECK(each.type == declared.type);
      CHECK(each.dims == declared.dims);
      CHECK(each.units == declared.units);
      CHECK(each.long_name == declared.long_name);
    }
  }
}

TEST_CASE("A store that is not committed leaves nothing and touches nothing") {
  const sample::Folder folder;
  write(folder / "a.h5", false);
  CHECK(folder.names().empty());
  sample::put_bytes(folder / "a.h5", "what stood here");
  write(folder / "a.h5", false);
  CHECK(sample::bytes_of(folder / "a.h5") == "what stood here");
  CHECK(folder.names() == std::vector<std::string>{"a.h5"});
}

TEST_CASE("A store is there under its name only after the commit") {
  const sample::Folder folder;
  StoreWriter file(folder / "deep/er/a.h5");
  file.attribute("/", "format", std::string("test-format"));
  CHECK_FALSE(std::ifstream(folder / "deep/er/a.h5").good());
  CHECK(std::ifstream(folder / "deep/er/a.h5.part").good());
  file.commit();
  CHECK(std::ifstream(folder / "deep/er/a.h5").good());
  CHECK_FALSE(std::ifstream(folder / "deep/er/a.h5.part").good());
}

TEST_CASE("A damaged byte is noticed before anything is read") {
  const sample::Folder folder;
  write(folder / "a.h5");
  std::string bytes = sample::bytes_of(folder / "a.h5");
  const auto at = bytes.find("long — word");
  REQUIRE(at != std::string::npos);
  bytes[at] = 'L';
  sample::put_bytes(folder / "a.h5", bytes);
  CHECK_THAT(refusal(folder / "a.h5"), Catch::Contains("a.h5: cannot read") &&
                                           Catch::Contains("checksum does not fit") && Catch::Contains("Fix: "));
}

TEST_CASE("A damaged number under a renewed seal is noticed by its own checksum") {
  const sample::Folder folder;
  write(folder / "a.h5");
  std::string bytes = sample::bytes_of(folder / "a.h5");
  const float value = 0.25F;
  std::string run;
  for (int i = 0; i < 64; ++i) run.append(reinterpret_cast<const char*>(&value), sizeof value);
  const auto at = bytes.find(run);
  REQUIRE(at != std::string::npos);
  bytes[at + 40] = static_cast<char>(bytes[at + 40] ^ 1);
  sample::put_bytes(folder / "a.h5", bytes.substr(0, bytes.size() - 15));
  CHECK_THAT(refusal(folder / "a.h5"), Catch::Contains("changed by another program"));
  engine::append_seal(folder / "a.h5", folder / "a.h5");
  CHECK_THAT(refusal(folder / "a.h5"), Catch::Contains("/a/b/rough") && Catch::Contains("damaged"));
}

TEST_CASE("A store that is cut short, empty or none at all is refused in words") {
  const sample::Folder folder;
  write(folder / "a.h5");
  const std::string bytes = sample::bytes_of(folder / "a.h5");
  sample::put_bytes(folder / "cut.h5", bytes.substr(0, bytes.size() / 2));
  sample::put_bytes(folder / "empty.h5", "");
  sample::put_bytes(folder / "text.h5", "title = \"a study\"\n");
  CHECK_THAT(refusal(folder / "cut.h5"), Catch::Contains("cut short"));
  CHECK_THAT(refusal(folder / "empty.h5"), Catch::Contains("not an HDF5 file"));
  CHECK_THAT(refusal(folder / "text.h5"), Catch::Contains("not an HDF5 file"));
  CHECK_THAT(refusal(folder / "absent.h5"), Catch::Contains("No such file"));
  CHECK_THAT(refusal(folder.path()), Catch::Contains("directory"));
}

TEST_CASE("A store of another format or a newer version is refused") {
  const sample::Folder folder;
  write(folder / "a.h5");
  const StoreReader file(folder / "a.h5");
  CHECK(file.require_format("test-format", 3) == 3);
  CHECK(file.require_format("test-format", 4) == 3);
  CHECK_THROWS_WITH(file.require_format("test-format", 2),
                    Catch::Contains("version 3, newer") && Catch::Contains("a tool 9.1 wrote it"));
  CHECK_THROWS_WITH(file.require_format("other", 3), Catch::Contains("'test-format'"));
}
