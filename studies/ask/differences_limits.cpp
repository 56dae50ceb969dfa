#include <fmt/format.h>

#include "engine/base/format.hpp"
#include "studies/ask/aim.hpp"
#include "studies/ask/finding.hpp"

namespace studies {
namespace {

using engine::Dimension;
using models::Limit;
using models::Must;

Dimension dimension_of(const Limit& limit) {
  return limit.kind == Limit::Kind::margin ? Dimension::none : models::row(limit.must).dimension;
}

TypedValue asked(const Limit& limit, bool with_kind) {
  const char* const kind = limit.kind == Limit::Kind::margin     ? "margin"
                           : limit.kind == Limit::Kind::at_least ? "at least"
                                                                 : "at most";
  return {with_kind ? kind : "", limit.asked, dimension_of(limit)};
}

std::string in_words(models::StripBasis basis) {
  return basis == models::StripBasis::yield ? "yield" : "ultimate strength";
}

/// Takes all that a limit asks but its odds.
Take asked_of(Must must) {
  return [must](Side& into, const Side& from) {
    Limit& limit = into.study.limits[*limit_of(into.study, must)];
    const std::optional<double> odds = limit.odds;
    limit = from.study.limits[*limit_of(from.study, must)];
    limit.odds = odds;
  };
}

std::vector<Difference> differences_of(const Limit& a, const Limit& b) {
  const std::string key = "must." + std::string(models::row(a.must).name), words(models::row(a.must).words);
  std::vector<Difference> all;
  if (a.kind != b.kind || !alike(a.asked, b.asked)) {
    const bool margins = a.kind == Limit::Kind::margin && b.kind == Limit::Kind::margin;
    all.push_back({key, margins ? "margin of " + words + " asked" : words + " asked", asked(a, a.kind != b.kind),
                   asked(b, a.kind != b.kind)});
  }
  if (a.must == Must::stripping && a.basis != b.basis)
    all.push_back({key + ".basis", "basis of stripping", said(in_words(a.basis)), said(in_words(b.basis))});
  if (a.must == Must::goes_first && a.part != b.part)
    all.push_back({key, "part that goes first", said(std::string(models::row(a.part).words)),
                   said(std::string(models::row(b.part).words))});
  return all;
}

void take_wanted(Side& into, const Side& from) { into.study.duty.force = from.study.duty.force; }

/// The force that a clamp wants stands in [duty], and in [must] unless it is typed there: both are one thing.
void find_wanted(Finding& f) {
  const std::optional<double>&a = f.a.study.duty.force, &b = f.b.study.duty.force;
  if (f.a.study.duty.action != models::Action::clamp || alike(a, b)) return;
  Alterable wanted{{{{"duty.force", "force wanted", said(a, Dimension::force), said(b, Dimension::force)}}},
                   {take_wanted}};
  const auto i = limit_of(f.a.study, Must::force), j = limit_of(f.b.study, Must::force);
  if (i && j && !differences_of(f.a.study.limits[*i], f.b.study.limits[*j]).empty())
    wanted.takes.push_back(asked_of(Must::force));
  f.add(std::move(wanted));
}

bool comes_with_wanted(const Finding& f, Must must) {
  const models::Duty &a = f.a.study.duty, &b = f.b.study.duty;
  return must == Must::force && a.action == models::Action::clamp && !alike(a.force, b.force);
}

/// A limit that one side alone has changes what stripping is reckoned by, and nothing else.
void find_basis(Finding& f) {
  const auto basis = [](const Study& study) {
    const auto i = limit_of(study, Must::stripping);
    return i ? study.limits[*i].basis : models::StripBasis::yield;
  };
  const bool one = limit_of(f.a.study, Must::stripping).has_value();
  const bool other = limit_of(f.b.study, Must::stripping).has_value();
  if (one == other || basis(f.a.study) == basis(f.b.study)) return;
  f.add({"must.stripping.basis", "basis of stripping", said(in_words(basis(f.a.study))),
         said(in_words(basis(f.b.study)))},
        [](Side& into, const Side& from) {
          std::erase_if(into.study.limits, [](const Limit& it) { return it.must == Must::stripping; });
          if (const auto i = limit_of(from.study, Must::stripping)) into.study.limits.push_back(from.study.limits[*i]);
        });
}

std::string odds_words(const Limit& limit) {
  return limit.odds ? fmt::format("{} of 100", engine::plain(100 * *limit.odds)) : "at nominal";
}

/// All of a limit, or that there is none.
TypedValue whole_words(const Study& study, Must must) {
  const auto i = limit_of(study, must);
  if (!i) return said("not asked");
  return asked(study.limits[*i], true);
}

std::vector<Difference> other_limits(const Study& a, const Study& b) {
  std::vector<Difference> all;
  for (std::size_t m = 0; m < models::must_count; ++m) {
    const auto must = static_cast<Must>(m);
    const auto i = limit_of(a, must), j = limit_of(b, must);
    const std::string key = "must." + std::string(models::row(must).name), words(models::row(must).words);
    if (i.has_value() != j.has_value())
      all.push_back({key, "limit of " + words, whole_words(a, must), whole_words(b, must)});
    else if (i && !alike(a.limits[*i].odds, b.limits[*j].odds))
      all.push_back({key + ".odds", "odds of " + words + " asked", said(odds_words(a.limits[*i])),
                     said(odds_words(b.limits[*j]))});
  }
  return all;
}

std::string aims_words(const Study& study) {
  std::string words;
  for (const Aim& it : study.aims)
    words += (words.empty() ? "" : ", ") + std::string(it.most ? "most " : "least ") + name(it.of);
  return words;
}

const Cap* cap_of(const Study& study, const Quantity& quantity) {
  for (const Cap& it : study.caps)
    if (it.of == quantity) return &it;
  return nullptr;
}

/// Caps of either side, each once.
void compare_caps(const Study& a, const Study& b, std::vector<Difference>& all) {
  const auto add = [&](const Cap& cap, const Cap* from, const Cap* to) {
    if (from && to && alike(from->at_most, to->at_most)) return;
    const Dimension dimension = dimension_of(cap.of);
    const auto words = [&](const Cap* it) { return it ? said(it->at_most, dimension) : said("none"); };
    all.push_back({"aim.cap." + name(cap.of), "cap of " + name(cap.of), words(from), words(to)});
  };
  for (const Cap& it : a.caps) add(it, &it, cap_of(b, it.of));
  for (const Cap& it : b.caps)
    if (!cap_of(a, it.of)) add(it, nullptr, &it);
}

std::string passes_words(const Passes& passes) {
  if (passes.settle)
    return fmt::format("settled to {} digits, at most {}", passes.settle->digits,
                       engine::count_in_full(passes.settle->at_most));
  return engine::count_in_full(passes.count);
}

}  // namespace

void find_in_limits(Finding& f) {
  find_wanted(f);
  for (const Limit& limit : f.a.study.limits) {
    const auto j = limit_of(f.b.study, limit.must);
    if (!j || comes_with_wanted(f, limit.must)) continue;
    std::vector<Difference> differences = differences_of(limit, f.b.study.limits[*j]);
    if (!differences.empty()) f.add(Alterable{{std::move(differences)}, {asked_of(limit.must)}});
  }
  find_basis(f);
}

std::vector<Difference> besides(const Study& a, const Study& b) {
  std::vector<Difference> all = other_limits(a, b);
  const auto add = [&](const char* key, const char* name, const std::string& from, const std::string& to) {
    if (from != to) all.push_back({key, name, said(from), said(to)});
  };
  add("aim", "aim", aims_words(a), aims_words(b));
  compare_caps(a, b, all);
  add("passes.count", "passes asked", passes_words(a.passes), passes_words(b.passes));
  add("passes.plan", "plan of the passes", name(a.passes.plan), name(b.passes.plan));
  add("passes.key", "key", std::to_string(a.passes.key), std::to_string(b.passes.key));
  add("duty.people", "people under it", a.duty.people ? "yes" : "no", b.duty.people ? "yes" : "no");
  return all;
}

std::vector<Alterable> alterables(const Side& a, const Side& b) {
  Finding finding(a, b);
  find_in_duty(finding);
  find_in_screw(finding);
  find_in_scatter(finding);
  find_in_limits(finding);
  return finding.take_all();
}

}  // namespace studies
