#include "work/making.h"

#include <algorithm>
#include <map>

namespace tacksquare::work {

namespace {

bool on_face(const Seam& seam, std::size_t face) {
  return seam.face_a == face || seam.face_b == face;
}

// One cycle of the stated precedence as ids, the smallest id first; empty when there is none.
std::vector<std::string> find_cycle(const std::map<std::string, std::vector<std::string>>& after) {
  enum class Seen { no, open, done };
  std::map<std::string, Seen> seen;
  std::vector<std::string> path;
  const auto visit = [&](const auto& self, const std::string& id) -> bool {
    seen[id] = Seen::open;
    path.push_back(id);
    for (const std::string& before : after.at(id)) {
      if (!after.count(before)) continue; // the reader tells references to nothing
      if (seen[before] == Seen::open) {
        path.erase(path.begin(), std::find(path.begin(), path.end(), before));
        return true;
      }
      if (seen[before] == Seen::no && self(self, before)) return true;
    }
    seen[id] = Seen::done;
    path.pop_back();
    return false;
  };
  for (const auto& entry : after)
    if (seen[entry.first] == Seen::no && visit(visit, entry.first)) {
      std::rotate(path.begin(), std::min_element(path.begin(), path.end()), path.end());
      return path;
    }
  return {};
}

void state_precedence(const Making& m, Work& work) {
  std::map<std::string, std::size_t> index;
  std::map<std::string, std::vector<std::string>> after;
  for (std::size_t i = 0; i < m.box.seams.size(); ++i) {
    index[m.box.seams[i].id] = i;
    after[m.box.seams[i].id] = m.box.seams[i].after;
    std::sort(after[m.box.seams[i].id].begin(), after[m.box.seams[i].id].end());
  }
  const std::vector<std::string> cycle = find_cycle(after);
  if (!cycle.empty()) {
    std::string round = cycle.front();
    for (std::size_t i = 1; i < cycle.size(); ++i)
      round += " after " + cycle[i];
    round += " after " + cycle.front();
    m.out.error("order-cycle", m.box.seams[index[cycle.front()]].where,
                "the order of seams goes round: " + round, "take one of these \"after\" away");
    return;
  }
  for (std::size_t i = 0; i < m.box.seams.size(); ++i)
    for (const std::string& id : m.box.seams[i].after)
      if (index.count(id)) work.before.emplace_back(index[id], i);
}

// The face that closes the volume: stated, else the top, else the first by id of those that take outside
// seams only.
std::optional<std::size_t> closing_face(const Making& m) {
  const std::vector<std::size_t>& faces = m.geometry.closed->faces;
  std::optional<std::size_t> best;
  const auto rank = [&](std::size_t face) {
    return std::make_pair(m.box.faces[face].id == "T" ? 0 : 1, m.box.faces[face].id);
  };
  for (const std::size_t face : faces) {
    if (m.box.last_face) {
      if (m.box.faces[face].id == *m.box.last_face) return face;
      continue;
    }
    const bool outside = std::all_of(m.box.seams.begin(), m.box.seams.end(), [&](const Seam& s) {
      return !on_face(s, face) || s.side == WeldSide::outside;
    });
    if (outside && (!best || rank(face) < rank(*best))) best = face;
  }
  return best;
}

// What is inside a closed box waits for nothing that is welded from outside: all of it comes first.
void refuse_waiting(const Making& m, const Seam& inside) {
  for (const Seam& before : m.box.seams)
    if (before.side == WeldSide::outside &&
        std::find(inside.after.begin(), inside.after.end(), before.id) != inside.after.end())
      m.out.error("closed-inside-waits", inside.where,
                  "seam " + inside.id +
                      " is inside, so it comes before all that is welded from outside, but it is " +
                      "stated to come after seam " + before.id,
                  "take " + before.id + " out of its \"after\"", Note{"that seam", before.where});
}

void close_volume(const Making& m, Work& work) {
  if (!m.geometry.closed) return;
  const std::optional<std::size_t> last = closing_face(m);
  if (!last) {
    m.out.error("closed-no-last-face", m.box.where,
                m.box.last_face
                    ? "the last face " + *m.box.last_face + " does not belong to the closed volume"
                    : "every face of the closed volume has a seam inside, so none can be closed last",
                "give one face outside seams only, and name it as the last face");
    return;
  }
  const std::string& id = m.box.faces[*last].id;
  work.last_face = id;
  for (std::size_t i = 0; i < m.box.seams.size(); ++i) {
    const Seam& seam = m.box.seams[i];
    if (seam.side != WeldSide::inside) continue;
    if (on_face(seam, *last)) {
      m.out.error("closed-inside-seam", seam.where,
                  "seam " + seam.id + " would be welded inside after face " + id + " has closed the box",
                  "weld it outside, or close the box with another face");
      continue;
    }
    refuse_waiting(m, seam);
    work.inside_first.push_back(i);
    for (std::size_t j = 0; j < m.box.seams.size(); ++j)
      if (on_face(m.box.seams[j], *last)) work.before.emplace_back(i, j);
  }
}

// The shop's own order, against what has to come first.
class StatedOrder {
 public:
  StatedOrder(const Making& m, const Work& work) : m_(m), work_(work), place_(m.box.seams.size()) {
    for (std::size_t i = 0; i < place_.size(); ++i)
      place_[i] = std::find(m.box.weld_order.begin(), m.box.weld_order.end(), m.box.seams[i].id) -
                  m.box.weld_order.begin();
  }

  void check() const {
    for (const auto& [a, b] : work_.before) {
      const std::vector<std::string>& after = seam(b).after;
      if (place_[a] < place_[b] || std::find(after.begin(), after.end(), seam(a).id) == after.end()) continue;
      tell(a, b, "seam " + seam(b).id + " is stated to come after it",
           Note{"the seam that waits", seam(b).where});
    }
    check_inside();
  }

 private:
  // What is inside a closed box, against the first seam that stands before it.
  void check_inside() const {
    std::optional<std::size_t> first; // of those that are welded from outside
    for (std::size_t i = 0; i < place_.size(); ++i)
      if (seam(i).side == WeldSide::outside && (!first || place_[i] < place_[*first])) first = i;
    if (!first) return;
    for (const std::size_t i : work_.inside_first)
      if (place_[i] > place_[*first])
        tell(i, *first, "it is inside, and nobody gets in there when face " + *work_.last_face + " is on",
             {});
  }

  void tell(std::size_t first, std::size_t then, const std::string& why, std::optional<Note> also) const {
    m_.out.error("order-before", m_.box.weld_order_where,
                 "the order of box " + m_.box.id + " welds seam " + seam(then).id + " before seam " +
                     seam(first).id + ", which has to come first: " + why,
                 "put " + seam(first).id + " before " + seam(then).id, std::move(also));
  }

  const Seam& seam(std::size_t i) const { return m_.box.seams[i]; }

  const Making& m_;
  const Work& work_;
  std::vector<std::ptrdiff_t> place_; // of each seam in the order
};

} // namespace

void set_precedence(const Making& m, Work& work) {
  state_precedence(m, work);
  close_volume(m, work);
  std::sort(work.before.begin(), work.before.end());
  work.before.erase(std::unique(work.before.begin(), work.before.end()), work.before.end());
  if (!m.box.weld_order.empty()) StatedOrder(m, work).check();
}

} // namespace tacksquare::work
