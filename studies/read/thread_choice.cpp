#include <fmt/format.h>

#include <algorithm>

#include "engine/base/format.hpp"
#include "studies/read/choose.hpp"
#include "studies/read/suggest.hpp"

namespace studies::read {
namespace {

using engine::Node;

std::vector<std::string> form_names() {
  std::vector<std::string> names;
  for (const models::Form form : models::all_forms()) names.push_back(name(form));
  return names;
}

/// Takes over what the thread room refuses, with the place in the study.
template <class Do>
void at(Page& page, const Node& node, Do what) {
  try {
    what();
  } catch (const engine::Refusal& refusal) {
    for (const engine::Problem& p : refusal.problems()) page.refuse(node.place, p.problem, p.reason, p.fix);
  }
}

void read_designations(Page& page, const Node& node) {
  for (const Node* item : one_or_list(node)) {
    if (item->kind != Node::Kind::text) {
      page.refuse_kind(*item, "choose.thread", "a designation, like \"Tr 40x7\"");
      continue;
    }
    at(page, *item, [&] {
      const models::Designation size = models::read_designation(item->text);
      models::make_thread(size.form, size.diameter, size.pitch, size.starts, page.study.choices.made);
      page.study.choices.thread.sizes.push_back(size);
      page.echo("choose.thread", *item, size.diameter, engine::Dimension::length);
    });
  }
}

void read_series(Page& page, const View& thread, models::Form form) {
  const std::optional<double> from = page.number(thread, "from"), to = page.number(thread, "to");
  if (!from || !to) {
    for (const char* key : {"from", "to"})
      if (!thread.has(key) && !page.spoiled(thread))
        page.refuse(thread.node->place, fmt::format("'choose.thread.{}' is missing", key),
                    "A range of sizes has two ends", fmt::format("write {} = \"…\"", key));
    return;
  }
  const std::vector<models::Size>& sizes = models::series(form);
  if (sizes.empty()) {
    page.refuse(thread.node->place, fmt::format("there is no series of {} threads here", name(form)), "",
                "give diameter and pitch instead of from and to");
    return;
  }
  if (*from > *to) {
    page.refuse(thread.place("from"), "choose.thread: from is above to", "", "exchange them");
    return;
  }
  std::vector<models::Designation>& all = page.study.choices.thread.sizes;
  for (const models::Size& size : sizes)
    if (size.diameter >= *from * (1 - 1e-9) && size.diameter <= *to * (1 + 1e-9))
      all.push_back({form, size.diameter, size.pitch});
  if (all.empty())
    page.refuse(thread.place("from"),
                fmt::format("no size of the {} series lies from {} to {}", name(form), as_typed(*thread.find("from")),
                            as_typed(*thread.find("to"))),
                fmt::format("The series goes from {} to {} mm", engine::three_figures(sizes.front().diameter * 1e3),
                            engine::three_figures(sizes.back().diameter * 1e3)),
                "widen the range");
}

/// Refuses a step that leaves nothing between the ends, or too much.
bool steps_fit(Page& page, const View& view, const Range& range) {
  constexpr std::size_t most = 1000;
  if (!(range.step > 0) || range.fixed()) return true;
  const bool many = (range.to - range.from) / range.step > static_cast<double>(most);
  if (!many && !range.multiples().empty()) return true;
  page.refuse(view.place("step"),
              fmt::format("{} = {} gives {}", view.under("step"), as_typed(*view.find("step")),
                          many ? "more than a thousand values" : "no value between the ends"),
              "Only whole multiples of it are tried", many ? "use a larger step" : "use a smaller step");
  return false;
}

/// One quantity or { from, to, step }.
std::optional<Range> read_range(Page& page, const View& in, const std::string& key) {
  const Node* node = in.find(key);
  if (!node) {
    if (!page.spoiled(in))
      page.refuse(in.node->place, fmt::format("'{}' is missing", in.under(key)),
                  "A free thread has a diameter and a pitch", fmt::format("write {} = \"…\"", key));
    return std::nullopt;
  }
  if (node->kind != Node::Kind::table) {
    const std::optional<double> one = page.number(in, key);
    return one ? std::optional<Range>({*one, *one}) : std::nullopt;
  }
  const View range = page.table(in, key);
  const std::optional<double> from = page.number(range, "from"), to = page.number(range, "to");
  for (const char* end : {"from", "to"})
    if (!range.has(end) && !page.spoiled(range))
      page.refuse(node->place, fmt::format("'{}' is missing", range.under(end)), "A range has two ends",
                  fmt::format("write {} = \"…\"", end));
  const std::optional<double> step = page.number(range, "step");
  if (!from || !to || (range.has("step") && !step)) return std::nullopt;
  const Range made{std::min(*from, *to), std::max(*from, *to), step.value_or(0)};
  if (!steps_fit(page, range, made)) return std::nullopt;
  if (*from <= *to) return made;
  // Threads per inch run the other way: "from 5 tpi to 8 tpi" is coarse to fine.
  const bool by_count = range.find("from")->text.find("tpi") != std::string::npos;
  if (by_count) return made;
  page.refuse(node->place, fmt::format("{}: from is above to", in.under(key)), "", "exchange them");
  return std::nullopt;
}

void read_free(Page& page, const View& thread, models::Form form) {
  const std::optional<Range> diameter = read_range(page, thread, "diameter"), pitch = read_range(page, thread, "pitch");
  if (!diameter || !pitch) return;
  at(page, *thread.node, [&] {
    // The finest pitch on the thickest screw is the most that can be had; both ends of the pitch must be cut at all.
    models::make_thread(form, diameter->to, pitch->from, 1, page.study.choices.made);
    models::make_thread(form, std::max(diameter->to, 10 * pitch->to), pitch->to, 1, page.study.choices.made);
    page.study.choices.thread.free.push_back({form, *diameter, *pitch});
  });
}

void read_table(Page& page, const View& thread) {
  const std::optional<std::string> form = page.word(thread, "form", form_names());
  if (!thread.has("form") && !page.spoiled(thread))
    page.refuse(thread.node->place, "'choose.thread.form' is missing", "",
                "write form = \"…\", one of: " + one_of(form_names()));
  const bool series = thread.has("from") || thread.has("to"), free = thread.has("diameter") || thread.has("pitch");
  if (series && free)
    page.refuse(thread.node->place, "choose.thread is given twice",
                "from and to choose from the series, diameter and pitch are free", "keep one pair of them");
  else if (!series && !free && !page.spoiled(thread))
    page.refuse(thread.node->place, "choose.thread says no size", "", "write from and to, or diameter and pitch");
  else if (form && (series || free))
    (series ? read_series : read_free)(page, thread, *models::form_named(*form));
}

void read_starts(Page& page, const View& choose) {
  std::vector<int>& all = page.study.choices.starts;
  const Node* node = choose.find("starts");
  if (node) {
    constexpr double most = 60;
    refuse_twice(page, *node, "choose.starts");
    if (node->kind == Node::Kind::list && node->items.empty())
      page.refuse(node->place, "choose.starts is an empty list", "", "write at least one value");
    for (const Node* item : one_or_list(*node)) {
      if (item->kind != Node::Kind::number || !item->whole || item->number < 1 || item->number > most) {
        page.refuse(item->place,
                    fmt::format("choose.starts = {} is not a whole number from 1 to {}", as_typed(*item), most),
                    "So many threads begin side by side", "write a whole number, like 1 or 2");
        continue;
      }
      page.echo("choose.starts", *item, item->number, engine::Dimension::none);
      all.push_back(static_cast<int>(item->number));
    }
  } else {
    page.echo_default("choose.starts", 1);
  }
  if (all.empty()) all.push_back(1);
  const Node* thread = choose.find("thread");
  for (const models::Designation& size : page.study.choices.thread.sizes)
    if (node && size.starts_said && std::find(all.begin(), all.end(), size.starts) == all.end())
      page.refuse(node->place,
                  fmt::format("choose.starts = {} contradicts the thread, which says {}", as_typed(*node), size.starts),
                  fmt::format("The designation is {}", as_typed(*thread)),
                  "take starts out, or name the thread without its lead");
}

/// A single thread with its starts is refused where it cannot exist; many are ruled out one by one in the search.
void check_single(Page& page, const View& choose) {
  const Choices& c = page.study.choices;
  if (c.starts.size() != 1 || !choose.find("thread")) return;
  const bool fixed = c.thread.free.size() == 1 && c.thread.free[0].diameter.fixed() && c.thread.free[0].pitch.fixed();
  at(page, *choose.find("thread"), [&] {
    if (fixed)
      models::make_thread(c.thread.free[0].form, c.thread.free[0].diameter.from, c.thread.free[0].pitch.from,
                          c.starts[0], c.made);
  });
}

}  // namespace

void read_thread(Page& page, const View& choose) {
  const Node* node = choose.find("thread");
  if (node)
    node->kind == Node::Kind::table ? read_table(page, page.table(choose, "thread")) : read_designations(page, *node);
  read_starts(page, choose);
  check_single(page, choose);
}

Range diameters(const ThreadChoice& choice) {
  Range range;
  const auto take = [&](double from, double to) {
    range.from = range.to > 0 ? std::min(range.from, from) : from;
    range.to = std::max(range.to, to);
  };
  for (const models::Designation& size : choice.sizes) take(size.diameter, size.diameter);
  for (const ThreadChoice::Free& free : choice.free) take(free.diameter.from, free.diameter.to);
  return range;
}

}  // namespace studies::read
