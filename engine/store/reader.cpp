#include "engine/store/reader.hpp"

#include <hdf5_hl.h>
#include <sys/stat.h>

#include <array>
#include <cerrno>

#include "engine/base/error.hpp"
#include "engine/store/handle.hpp"
#include "engine/store/seal.hpp"

namespace engine {
namespace {

const char* const anew = "restore it from a copy, or write it anew by running its study again";

std::string last_part(const std::string& path) { return path.substr(path.rfind('/') + 1); }

/// The last part of an object's path; empty where it has none. Called back from C: does not throw on bad input.
std::string name_of(hid_t object) {
  std::array<char, 1024> path{};
  if (H5Iget_name(object, path.data(), path.size()) <= 0) return "";
  return last_part(path.data());
}

/// The type a data set or attribute is stored as; empty for what results files have none of.
std::optional<Stored> stored_as(hid_t type) {
  const std::size_t size = H5Tget_size(type);
  switch (H5Tget_class(type)) {
    case H5T_FLOAT:
      return size == 8 ? Stored::f64 : Stored::f32;
    case H5T_INTEGER:
      return size == 1 ? Stored::u8 : Stored::i64;
    case H5T_STRING:
      return Stored::text;
    default:
      return std::nullopt;
  }
}

/// The texts of a data set of free or fixed length.
class Texts {
public:
  Texts(hid_t set, hid_t space, hid_t type, std::size_t count, const Expect& expect)
      : free_(expect.done(H5Tis_variable_str(type)) > 0), space_(space), type_(type) {
    const std::size_t width = free_ ? sizeof(char*) : H5Tget_size(type);
    bytes_.resize(count * width);
    if (count > 0) expect.done(H5Dread(set, type, H5S_ALL, H5S_ALL, H5P_DEFAULT, bytes_.data()));
    for (std::size_t i = 0; i < count; ++i) values.push_back(at(i * width, width));
  }
  Texts(const Texts&) = delete;
  Texts& operator=(const Texts&) = delete;
  ~Texts() {
    if (free_ && !values.empty()) H5Dvlen_reclaim(type_, space_, H5P_DEFAULT, bytes_.data());
  }

  std::vector<std::string> values;

private:
  std::string at(std::size_t offset, std::size_t width) const {
    if (free_) {
      const char* text = *reinterpret_cast<char* const*>(bytes_.data() + offset);
      return text ? text : "";
    }
    const std::string text(bytes_.data() + offset, width);
    return text.substr(0, text.find('\0'));
  }

  bool free_;
  hid_t space_, type_;
  std::vector<char> bytes_;
};

/// A data set with its type and space.
struct Set {
  Set(hid_t file, const Expect& expect, const std::string& path)
      : set(expect.owned(H5Dopen2(file, path.c_str(), H5P_DEFAULT), H5Dclose)),
        type(expect.owned(H5Dget_type(set.id()), H5Tclose)),
        space(expect.owned(H5Dget_space(set.id()), H5Sclose)),
        count(static_cast<std::size_t>(expect.done(H5Sget_simple_extent_npoints(space.id())))) {}

  Handle set, type, space;
  std::size_t count;
};

}  // namespace

struct StoreReader::Inside {
  std::string path;
  bool sealed = false;
  Handle file;

  Expect reading(const std::string& object) const { return {path, "read", object}; }
  [[noreturn]] void damaged(const std::string& object, const std::string& how) const {
    throw Refusal(ExitCode::files, Problem{path, 0, 0, "cannot read " + object, "it is damaged (" + how + ")", anew});
  }
  /// @throws Refusal (files) where the file has no seal: its data are not to be trusted
  void require_seal(const std::string& object) const {
    if (!sealed) damaged(object, "cut short or changed by another program: its last line is no checksum");
  }
  /// The open attribute, or an empty handle where there is none.
  Handle attribute(const std::string& object, const std::string& name) const;
  /// A scalar attribute of the class due; empty where there is none.
  template <class Number>
  std::optional<Number> scalar(const std::string& object, const std::string& name, hid_t memory_type) const;
  template <class Number>
  std::vector<Number> read(const std::string& object, hid_t memory_type) const;
  std::vector<std::string> dims(const Set& set, const Expect& expect) const;
};

Handle StoreReader::Inside::attribute(const std::string& object, const std::string& name) const {
  const Expect expect = reading(object + "@" + name);
  if (expect.done(H5Aexists_by_name(file.id(), object.c_str(), name.c_str(), H5P_DEFAULT)) == 0) return {};
  return expect.owned(H5Aopen_by_name(file.id(), object.c_str(), name.c_str(), H5P_DEFAULT, H5P_DEFAULT), H5Aclose);
}

template <class Number>
std::optional<Number> StoreReader::Inside::scalar(const std::string& object, const std::string& name,
                                                  hid_t memory_type) const {
  const Handle attribute_ = attribute(object, name);
  if (attribute_.id() < 0) return std::nullopt;
  const Expect expect = reading(object + "@" + name);
  const Handle space = expect.owned(H5Aget_space(attribute_.id()), H5Sclose);
  const Handle type = expect.owned(H5Aget_type(attribute_.id()), H5Tclose);
  const auto stored = stored_as(type.id());
  if (H5Sget_simple_extent_npoints(space.id()) != 1 || !stored || *stored == Stored::text) return std::nullopt;
  Number value{};
  expect.done(H5Aread(attribute_.id(), memory_type, &value));
  return value;
}

template <class Number>
std::vector<Number> StoreReader::Inside::read(const std::string& object, hid_t memory_type) const {
  require_seal(object);
  const Expect expect = reading(object);
  const Set set(file.id(), expect, object);
  if (H5Tget_class(set.type.id()) == H5T_STRING) damaged(object, "numbers are due, texts are there");
  std::vector<Number> values(set.count);
  expect.done(H5Dread(set.set.id(), memory_type, H5S_ALL, H5S_ALL, H5P_DEFAULT, values.data()));
  return values;
}

std::vector<std::string> StoreReader::Inside::dims(const Set& set, const Expect& expect) const {
  if (expect.done(H5DSis_scale(set.set.id())) > 0) return {name_of(set.set.id())};
  const int rank = expect.done(H5Sget_simple_extent_ndims(set.space.id()));
  const auto take_first = [](hid_t, unsigned, hid_t scale, void* into) -> herr_t {
    *static_cast<std::string*>(into) = name_of(scale);
    return 1;
  };
  std::vector<std::string> names(static_cast<std::size_t>(rank));
  for (unsigned i = 0; i < names.size(); ++i)
    expect.done(H5DSiterate_scales(set.set.id(), i, nullptr, take_first, &names[i]));
  return names;
}

StoreReader::StoreReader(const std::string& path) {
  prepare_library();
  const Expect expect{path, "open", ""};
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) expect.refuse(errno);
  if (S_ISDIR(status.st_mode)) expect.refuse(EISDIR);
  inside_ = std::make_unique<Inside>();
  inside_->path = path;
  const Seal seal = seal_of(path);
  if (seal == Seal::broken) inside_->damaged("the file", "its checksum does not fit");
  inside_->sealed = seal == Seal::whole;
  inside_->file = expect.owned(H5Fopen(path.c_str(), H5F_ACC_RDONLY, H5P_DEFAULT), H5Fclose);
}

StoreReader::~StoreReader() = default;

std::int64_t StoreReader::require_format(const std::string& format, std::int64_t newest) const {
  const auto refuse = [&](const std::string& problem, const std::string& reason, const std::string& fix) {
    throw Refusal(ExitCode::files, Problem{inside_->path, 0, 0, problem, reason, fix});
  };
  const auto found = text_attribute("/", "format");
  const auto version = whole_attribute("/", "format_version");
  if (!found || !version || *found != format)
    refuse("it is an HDF5 file, but not one of " + format,
           found ? "its format is '" + *found + "'" : "it names no format", "name a file that this program wrote");
  if (*version > newest) {
    const std::string writer = text_attribute("/", "program").value_or("a program") + " " +
                               text_attribute("/", "program_version").value_or("");
    refuse("its format is version " + std::to_string(*version) + ", newer than this program knows",
           writer + " wrote it; this program reads up to version " + std::to_string(newest), "use the newer program");
  }
  return *version;
}

bool StoreReader::has(const std::string& path) const {
  for (std::size_t slash = path.find('/', 1);; slash = path.find('/', slash + 1)) {
    const std::string so_far = path.substr(0, slash);
    if (inside_->reading(so_far).done(H5Lexists(inside_->file.id(), so_far.c_str(), H5P_DEFAULT)) == 0) return false;
    if (slash == std::string::npos) return true;
  }
}

std::optional<std::string> StoreReader::text_attribute(const std::string& object, const std::string& name) const {
  const Handle attribute = inside_->attribute(object, name);
  if (attribute.id() < 0) return std::nullopt;
  const Expect expect = inside_->reading(object + "@" + name);
  const Handle type = expect.owned(H5Aget_type(attribute.id()), H5Tclose);
  const Handle space = expect.owned(H5Aget_space(attribute.id()), H5Sclose);
  if (H5Tget_class(type.id()) != H5T_STRING || H5Sget_simple_extent_npoints(space.id()) != 1) return std::nullopt;
  if (H5Tis_variable_str(type.id()) > 0) {
    char* text = nullptr;
    expect.done(H5Aread(attribute.id(), type.id(), &text));
    std::string value = text ? text : "";
    H5free_memory(text);
    return value;
  }
  std::string value(H5Tget_size(type.id()), '\0');
  expect.done(H5Aread(attribute.id(), type.id(), value.data()));
  return value.substr(0, value.find('\0'));
}

std::optional<std::int64_t> StoreReader::whole_attribute(const std::string& object, const std::string& name) const {
  return inside_->scalar<std::int64_t>(object, name, H5T_NATIVE_INT64);
}

std::optional<std::uint64_t> StoreReader::count_attribute(const std::string& object, const std::string& name) const {
  return inside_->scalar<std::uint64_t>(object, name, H5T_NATIVE_UINT64);
}

std::optional<double> StoreReader::number_attribute(const std::string& object, const std::string& name) const {
  return inside_->scalar<double>(object, name, H5T_NATIVE_DOUBLE);
}

std::vector<std::string> StoreReader::attribute_names(const std::string& object) const {
  const Expect expect = inside_->reading(object);
  const Handle owner = expect.owned(H5Oopen(inside_->file.id(), object.c_str(), H5P_DEFAULT), H5Oclose);
  std::vector<std::string> names;
  const auto take = [](hid_t, const char* name, const H5A_info_t*, void* into) -> herr_t {
    static_cast<std::vector<std::string>*>(into)->emplace_back(name);
    return 0;
  };
  expect.done(H5Aiterate2(owner.id(), H5_INDEX_NAME, H5_ITER_INC, nullptr, take, &names));
  return names;
}

std::vector<StoredVariable> StoreReader::variables() const {
  inside_->require_seal("its variables");
  std::vector<std::string> paths;
  const auto take = [](hid_t, const char* name, const H5O_info_t* info, void* into) -> herr_t {
    if (info->type == H5O_TYPE_DATASET)
      static_cast<std::vector<std::string>*>(into)->push_back("/" + std::string(name));
    return 0;
  };
  inside_->reading("").done(
      H5Ovisit2(inside_->file.id(), H5_INDEX_CRT_ORDER, H5_ITER_INC, take, &paths, H5O_INFO_BASIC));
  std::vector<StoredVariable> all;
  for (const std::string& path : paths) {
    const Expect expect = inside_->reading(path);
    const Set set(inside_->file.id(), expect, path);
    const auto units = text_attribute(path, "units");
    if (!units && H5DSis_scale(set.set.id()) > 0) continue;
    const auto type = stored_as(set.type.id());
    if (!type) inside_->damaged(path, "a type that results files have not");
    const auto slash = path.rfind('/');
    all.push_back({path.substr(0, slash), path.substr(slash + 1), *type, inside_->dims(set, expect), units.value_or(""),
                   text_attribute(path, "long_name").value_or(""), ""});
  }
  return all;
}

std::vector<std::size_t> StoreReader::shape(const std::string& path) const {
  inside_->require_seal(path);
  const Expect expect = inside_->reading(path);
  const Set set(inside_->file.id(), expect, path);
  std::vector<hsize_t> lengths(static_cast<std::size_t>(expect.done(H5Sget_simple_extent_ndims(set.space.id()))));
  if (!lengths.empty()) expect.done(H5Sget_simple_extent_dims(set.space.id(), lengths.data(), nullptr));
  return {lengths.begin(), lengths.end()};
}

std::vector<double> StoreReader::numbers(const std::string& path) const {
  return inside_->read<double>(path, H5T_NATIVE_DOUBLE);
}

std::vector<std::int64_t> StoreReader::whole_numbers(const std::string& path) const {
  return inside_->read<std::int64_t>(path, H5T_NATIVE_INT64);
}

std::vector<std::string> StoreReader::texts(const std::string& path) const {
  inside_->require_seal(path);
  const Expect expect = inside_->reading(path);
  const Set set(inside_->file.id(), expect, path);
  if (H5Tget_class(set.type.id()) != H5T_STRING) inside_->damaged(path, "texts are due, numbers are there");
  const Texts texts(set.set.id(), set.space.id(), set.type.id(), set.count, expect);
  return texts.values;
}

std::string StoreReader::text(const std::string& path) const {
  const std::vector<std::string> all = texts(path);
  if (all.size() != 1) inside_->damaged(path, "one text is due");
  return all[0];
}

std::size_t StoreReader::check() const {
  const auto all = variables();
  for (const StoredVariable& variable : all) {
    if (variable.type == Stored::text) {
      texts(variable.path());
    } else {
      numbers(variable.path());
    }
  }
  return all.size();
}

}  // namespace engine
