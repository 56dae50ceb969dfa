/// The framed first sheet: what a boss or an inspector reads.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/say/details.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/neighbours.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/html.hpp"
#include "studies/sheet/sections.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Output;

/// What is missed, in few words; empty where nothing is.
std::string missed(const Answer& answer) {
  std::vector<std::string> names;
  for (const LimitVerdict& v : answer.limits)
    if (!v.holds) names.push_back(say::row_words(v.limit));
  return say::list_of(names);
}

std::string stamp(const Shown& shown) {
  const Answer& answer = shown.answer;
  if (!shown.result.answer.pick) return "Nothing passes";
  if (answer.limits.empty()) return "Nothing was asked to hold";
  const std::string names = missed(answer);
  if (!names.empty()) {
    const auto count =
        std::count_if(answer.limits.begin(), answer.limits.end(), [](const auto& v) { return !v.holds; });
    return fmt::format("{} limit{} missed: {}", say::capital(say::number_in_words(static_cast<std::uint64_t>(count))),
                       count == 1 ? "" : "s", names);
  }
  return answer.settled() ? "Every limit holds" : "Every limit holds, not settled";
}

bool is_well(const Shown& shown) {
  return shown.result.answer.pick && missed(shown.answer).empty() && shown.answer.settled();
}

/// The headline without the study's name and the designation: "one start, 60 mm bronze nut, oiled, pad: 5.89 kg".
std::string pick_words(const Answer& answer) {
  const std::string all = say::headline(answer);
  const std::string after = answer.pick->designation + ", ";
  const auto at = all.find(after);
  return at == std::string::npos ? all : all.substr(at + after.size());
}

std::string verdict_block(const Shown& shown) {
  const Study& study = shown.result.study;
  std::string html = fmt::format("<header class=verdict-block><p class=\"stamp{}\">{}</p>", is_well(shown) ? "" : " no",
                                 printed(stamp(shown)));
  if (shown.answer.pick)
    html +=
        fmt::format("<h1><b>{}</b>{}{}</h1>", printed(shown.answer.pick->designation),
                    shown.nearest() ? "the nearest of those tried: " : "", with_other(pick_words(shown.answer), study));
  else
    html += fmt::format("<h1><b>No screw</b>{}</h1>", printed(study.title));
  html += fmt::format("<p class=verdict>{}</p>", with_other(shown.result.sentence, study));
  std::string why = say::proof(shown.result.answer);
  if (shown.nearest() && !missed(shown.answer).empty()) why += " The screw shown misses " + missed(shown.answer) + ".";
  if (!why.empty()) html += fmt::format("<p class=why>{}</p>", with_other(why, study));
  return html + "</header>";
}

/// The limit of the task with odds; null where there is none.
const LimitVerdict* task_with_odds(const Answer& answer) {
  const bool clamp = answer.study->duty.action == models::Action::clamp;
  for (const LimitVerdict& v : answer.limits) {
    const bool task = clamp ? v.limit.must == models::Must::force
                            : v.limit.must == models::Must::torque || v.limit.must == models::Must::hand_force;
    if (task && v.limit.odds) return &v;
  }
  return nullptr;
}

/// A hundred dots, those that fall short as crosses.
std::string hundred(std::size_t crosses, const std::string& says) {
  std::string marks;
  for (std::size_t i = 0; i < 100; ++i) {
    const std::size_t x = 8 + 16 * (i % 20), y = 8 + 16 * (i / 20);
    marks += i >= 100 - crosses
                 ? fmt::format(
                       "<path d=\"M{0:.1f} {1:.1f}l9.2 9.2m0-9.2l-9.2 9.2\" stroke=\"#bf3f10\" stroke-width=\"2.6\" "
                       "fill=\"none\"/>",
                       static_cast<double>(x) - 4.6, static_cast<double>(y) - 4.6)
                 : fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"4.7\" fill=\"#12457e\"/>", x, y);
  }
  return fmt::format("<svg viewBox=\"0 0 320 80\" role=\"img\" aria-label=\"{}\">{}</svg>", escaped(says), marks);
}

std::string odds_words(const Answer& answer, const LimitVerdict& v) {
  const std::string who = say::hundred_of(answer);
  const double allowed = say::allowed_of_hundred(*v.limit.odds);
  const say::Said said = say::said(say::shortfall(v), allowed);
  if (v.misses == 0 && !v.by_rare)
    return fmt::format("Of 100 {} none falls short, at most {}; {} were allowed.", who, said.high,
                       say::given_number(allowed));
  return fmt::format("Of 100 {} {} fall short ({} to {} from the passes run); {} were allowed.", who, said.estimate,
                     said.low, said.high, say::given_number(allowed));
}

std::string fact(const std::string& name, const std::string& value) {
  return fmt::format("<div><dt>{}</dt><dd>{}</dd></div>", printed(name), softened(value));
}

const OutputSummary& of(const Answer& answer, Output output) {
  return answer.outputs[static_cast<std::size_t>(output)];
}

/// Quantiles of what the task comes to, and the numbers that a shop asks for next.
std::string facts(const Shown& shown) {
  const Answer& answer = shown.answer;
  const say::HisUnits his(*answer.study);
  const bool clamp = answer.study->duty.action == models::Action::clamp;
  std::string html = "<dl class=facts>";
  const Output task = clamp ? Output::force : answer.study->duty.handle ? Output::hand_force : Output::torque;
  const OutputSummary& it = of(answer, task);
  const auto at = [&](std::size_t q) { return both(his, it.quantiles[q].estimate, it.dimension); };
  if (it.quantiles[2].estimate < it.quantiles[6].estimate) {
    const char* const verb = clamp ? "reach" : "need at most";
    html += fact(fmt::format("95 of 100 {}", verb), at(clamp ? 2 : 6));
    html += fact(fmt::format("50 of 100 {}", verb), at(4));
    html += fact(fmt::format("5 of 100 {}", verb), at(clamp ? 6 : 2));
  } else if (std::isfinite(it.nominal)) {
    html += fact(it.meaning, both(his, it.nominal, it.dimension));
  }
  for (const Output output : {Output::torque, Output::hand_force, Output::efficiency, Output::turns}) {
    if (output == task || (clamp && output == Output::hand_force)) continue;
    const OutputSummary& other = of(answer, output);
    if (std::isfinite(other.nominal) && other.reason.empty())
      html += fact(std::string(models::row(output).words) + (output == Output::turns ? ", full travel" : ", nominal"),
                   both(his, other.nominal, other.dimension));
  }
  return html + "</dl>";
}

std::string odds(const Shown& shown) {
  if (!shown.answer.pick) return "";
  std::string html = "<aside class=odds>";
  if (const LimitVerdict* v = task_with_odds(shown.answer)) {
    const auto crosses = static_cast<std::size_t>(std::lround(std::min(100.0, say::shortfall(*v).estimate)));
    html += hundred(crosses, fmt::format("{} dots and {} crosses: of 100 {}, {} fall short", 100 - crosses, crosses,
                                         say::hundred_of(shown.answer), crosses));
    html += "<p>" + printed(odds_words(shown.answer, *v)) + "</p>";
  } else {
    html += "<p>No odds are asked of the task.</p>";
  }
  return html + facts(shown) + "</aside>";
}

/// A value and that of the other system below it.
std::string stacked(const std::string& value, const std::string& other) {
  return printed(value) + (other.empty() ? "" : " <span class=o>[" + printed(other) + "]</span>");
}

std::string in_other(double si, Dimension dimension, const say::HisUnits& his) {
  if (dimension == Dimension::none || !std::isfinite(si)) return "";
  const std::string text = both(his, si, dimension);
  const auto from = text.find('[');
  return from == std::string::npos ? "" : text.substr(from + 1, text.size() - from - 2);
}

std::string must_row(const LimitVerdict& v, const say::HisUnits& his) {
  const Dimension dimension = say::said_in(v.limit);
  const std::string asked = say::asked_words(v.limit, his), has = say::has_words(v.limit, {v.has, v.limit.asked}, his);
  return fmt::format("<tr{}><th scope=row>{}<td>{}<td class=num>{}<td class=num>{}<td class=num>{}",
                     v.holds ? "" : " class=miss", printed(say::capital(say::row_words(v.limit))),
                     printed(say::surely(v.limit)), stacked(asked, in_other(v.limit.asked, dimension, his)),
                     stacked(has, in_other(v.has, dimension, his)), printed(say::spare_words(v.spare)));
}

std::string must(const Shown& shown) {
  if (!shown.answer.pick) return "";
  if (shown.answer.limits.empty()) return "<div class=must><p>The study asks nothing that must hold.</p></div>";
  const say::HisUnits his(shown.result.study);
  std::string html =
      "<div class=must><table><caption>What must hold</caption><thead><tr><th scope=col>Limit<th scope=col>In<th "
      "scope=col "
      "class=num>Asked<th scope=col class=num>Has<th scope=col class=num>To spare</thead><tbody>";
  for (const LimitVerdict* v : say::by_spare(shown.answer)) html += must_row(*v, his);
  return html + "</tbody></table><p class=note>Margins, where no unit is shown.</p></div>";
}

std::string cell(const char* classes, const char* label, const std::string& value) {
  return fmt::format("<div class=\"{}\"><dt>{}</dt><dd>{}</dd></div>", classes, label, printed(value));
}

/// The data fields of a title block.
/// @source ISO 7200, from memory
std::string title_block(const Shown& shown) {
  const TitleBlock& b = shown.block;
  const std::string& title = shown.result.study.title;
  std::string html = "<dl class=titleblock>";
  html += cell("c3", "Legal owner", b.owner) + cell("c3", "Created by", b.made_by) + cell("c3", "Checked by", "") +
          cell("c3 er", "Approved by", "");
  html += cell("c3", "Document type", "Calculation sheet");
  html += cell(say::columns(title) > 36 ? "c6 title long" : "c6 title", "Title", title);
  html += cell("c3 er", "Identification number", b.number);
  html += cell("c3 eb", "Status", "For checking") + cell("c2 eb", "Rev.", b.revision) +
          cell("c3 eb", "Date of issue", b.date) + cell("c2 eb", "Lang.", "en") + cell("c2 er eb", "Sheet", "1");
  return html + "</dl>";
}

}  // namespace

std::string first_sheet(const Shown& shown) {
  std::string html = "<section class=sheet1 aria-label=\"Verdict and drawing\">";
  html += fmt::format("<p class=runner><span>Calculation sheet · {}</span><span>{} · {}</span></p>",
                      printed(shown.result.study.title), escaped(shown.result.study.path), escaped(shown.block.date));
  html += "<div class=grid>" + verdict_block(shown) + odds(shown) + figure_html(shown, "view") + must(shown) + "</div>";
  html += "<p class=remarks>Remarks</p><div class=foot><div class=conv>";
  html +=
      "<p>NOTICE: This is a calculation aid. It does not certify equipment. Local law, codes and the maker’s "
      "instructions come "
      "first; where the work must be designed or approved by a licensed or competent person, have it done.</p>";
  html +=
      fmt::format("<p>Computed values to three figures. Odds count {}. Drawing not to be measured for manufacture.</p>",
                  printed(say::hundred_of(shown.answer)));
  return html + "</div>" + title_block(shown) + "</div></section>\n";
}

}  // namespace studies::sheet
