#include "job/file/read_job.h"

#include "job/file/file_text.h"
#include "job/file/further_files.h"
#include "job/file/list_by_id.h"
#include "job/file/ranges.h"
#include "job/file/read_parts.h"

#include <algorithm>

namespace tacksquare {

namespace {

constexpr auto kNoBox = static_cast<std::size_t>(-1);

// A day of the calendar, year-month-day.
bool is_date(const std::string& text) {
  const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  for (const std::size_t i : {0u, 1u, 2u, 3u, 5u, 6u, 8u, 9u})
    if (!digit(i)) return false;
  const int year = std::stoi(text.substr(0, 4)), month = std::stoi(text.substr(5, 2)),
            day = std::stoi(text.substr(8));
  constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (month < 1 || month > 12) return false;
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return day >= 1 && day <= days[month - 1] + (month == 2 && leap ? 1 : 0);
}

std::size_t errors_in(const Diagnostics& out) {
  return static_cast<std::size_t>(
      std::count_if(out.items().begin(), out.items().end(),
                    [](const Diagnostic& d) { return d.severity == Severity::error; }));
}

// The boxes that were read without a fault; none where something else has one.
std::vector<Box> read_root(Element& root, FurtherFiles& files, Job& job) {
  Known known;
  std::vector<Box> sound;
  job.name = root.seen_name().value_or("");
  job.number = root.text("number").value_or("");
  if (const auto date = root.text("date")) {
    job.date = *date;
    if (!is_date(*date))
      root.out().error("date-bad", root.where("date"), quoted(*date) + " is not a date",
                       "year-month-day, for example \"2027-03-31\"");
  }
  // In an order in which what is referred to comes first.
  for (Element& e : root.children("metal"))
    read_metal(e, known);
  for (Element& e : root.children("sheet"))
    read_sheet(e, known, job);
  if (root.children("sheet").empty())
    root.out().error("no-sheet", root.where(), "the job has no sheet",
                     "add <sheet id=\"s2\" metal=\"mild-steel\" thickness=\"2 mm\"/>");
  known.sure_of_sheets = errors_in(root.out()) == 0 && !job.sheets.empty();
  for (Element& e : root.children("procedure"))
    read_procedure(e, known, job);
  if (auto e = root.only_child("ambient")) read_ambient(*e, job);
  if (auto e = root.only_child("rules")) read_rules(*e, job.rules);
  if (auto e = root.only_child("limits")) read_limits(*e, job.limits);
  if (auto e = root.only_child("crew")) read_crew(*e, job.crew);
  if (auto e = root.only_child("incoming")) read_incoming(*e, job.incoming);
  const auto boxes = root.children("box");
  const std::size_t errors_before = errors_in(root.out());
  const bool rest_sound = errors_before == 0;
  for (Element box : boxes) {
    const std::size_t before = errors_in(root.out()), index = job.boxes.size();
    const BoxSure well = read_box(box, known, job);
    const bool kept = job.boxes.size() > index; // it has an id
    const bool first = known.boxes.add(kept ? job.boxes.back().id : std::string(box.raw("id")),
                                       kept ? index : kNoBox, box.where("id"), box.out());
    if (!kept || !first) continue;
    if (well.count) known.sure_counts.insert(index);
    if (well.faces) known.sure_boxes.insert(index);
    if (well.seams) known.sure_seams.insert(index);
    if (rest_sound && errors_in(root.out()) == before) sound.push_back(job.boxes.back());
  }
  known.sure_of_boxes = errors_in(root.out()) == errors_before;
  if (auto e = root.only_child("brake")) read_brake(*e, known, job);
  if (auto e = root.only_child("opening")) read_opening(*e, known, job);
  read_measured(root.children("measured"), known, job);
  if (auto e = root.only_child("shop")) read_shop(*e, job.shop.emplace());
  read_fixtures(root.children("fixture"), known, files, job);
  if (boxes.empty())
    root.out().error("no-box", root.where(), "the job has no box", "add <box id=\"locker\">");
  root.allow({"metal", "sheet", "procedure", "ambient", "rules", "limits", "crew", "incoming", "box", "brake",
              "opening", "measured", "shop", "fixture"});
  root.finish();
  return sound;
}

Diagnostics in_file_order(const Diagnostics& all) {
  std::vector<Diagnostic> items = all.items();
  std::stable_sort(items.begin(), items.end(),
                   [](const Diagnostic& a, const Diagnostic& b) { return a.where.before(b.where); });
  Diagnostics sorted;
  for (Diagnostic& d : items) {
    if (d.severity == Severity::error)
      sorted.error(d.code, d.where, d.message, d.remedy, d.also);
    else
      sorted.caution(d.code, d.where, d.message, d.remedy, d.also);
  }
  return sorted;
}

} // namespace

JobReading read_job(std::string_view text, const OpenFile& open) {
  JobReading reading;
  Diagnostics found;
  std::vector<Box> sound;
  FurtherFiles files(open);
  FileText file(text, 0, found);
  if (auto root = file.root(kJobFile)) sound = read_root(*root, files, reading.job.emplace());
  if (reading.job)
    for (const Box& box : reading.job->boxes)
      reading.boxes.push_back(box.id);
  reading.files = files.take();
  reading.diagnostics = in_file_order(found);
  if (reading.job && reading.diagnostics.has_errors()) {
    if (!sound.empty()) {
      reading.sound = std::move(reading.job);
      reading.sound->boxes = std::move(sound);
      // They refer to boxes that are no longer there.
      reading.sound->opening.reset();
      reading.sound->measured.clear();
      reading.sound->fixtures.clear();
      list_by_id(*reading.sound);
    }
    reading.job.reset();
  }
  if (reading.job) list_by_id(*reading.job);
  return reading;
}

} // namespace tacksquare
