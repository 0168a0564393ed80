// Orders of the seams beside each other: that what is said of them goes together.
#include "plan/verify/checking.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::verify {

namespace {

constexpr double kRounded = 1e-5; // values closer than this are equal

void check_bounds(const Checking& c, const OrderProof& p) {
  const bool tabled = p.orders > 0.0;
  if (p.whole.has_value() != p.whole_bound.has_value() || (p.whole && *p.whole_bound > *p.whole + kRounded))
    c.tell("of whole seams the bound is above the best order, or one of them is missing");
  if (p.proven && !tabled) c.tell("an order is proven to be the squarest of no orders");
  if (!tabled && p.least_bound > p.least + kRounded)
    c.tell("the bound of all orders is above the best that was found");
  if (!tabled) return;
  if (p.nominal_bound > p.nominal + kRounded || p.least_bound > p.least + kRounded ||
      p.least > p.most + kRounded || p.most > p.most_bound + kRounded)
    c.tell("the best and the worst order and what none is beyond do not go up from one to the next");
  const double open = std::max({p.nominal - p.nominal_bound, p.least - p.least_bound, p.most_bound - p.most});
  if (p.proven && open > p.within + kRounded)
    c.tell("an order is called proven to {} of the limit, but the bound is {} away", p.within, open);
}

void check_matters(const Checking& c, const OrderProof& p, double least_square) {
  const double by_order = least_square - p.squarest;
  const char* matters = by_order < 0.01              ? "none"
                        : by_order < 0.5 * p.scatter ? "below"
                        : by_order < p.scatter       ? "at"
                                                     : "above";
  if (p.matters != matters)
    c.tell("the order of the seams matters {}, but {} against a scatter of {} is {}", p.matters, by_order,
           p.scatter, matters);
}

} // namespace

void check_orders_of_seams(const Checking& c) {
  if (!c.plan.order_proof || c.plan.orders.empty()) return;
  const OrderProof& p = *c.plan.order_proof;
  for (const double figure : {p.orders, p.within, p.nominal, p.least, p.most, p.squarest, p.width, p.scatter,
                              p.planned_finer, p.squarest_finer})
    if (!std::isfinite(figure) || figure < 0.0) {
      c.tell("a figure of the orders of seams is below zero");
      return;
    }
  check_bounds(c, p);
  std::optional<double> squarest, least_square, planned, whole;
  for (const OrderCompared& order : c.plan.orders) {
    if (!order.square || !order.chance) continue;
    if (*order.square < 0.0 || *order.chance < 0.0 || *order.chance > 1.0)
      c.tell("order {}: squareness or chance out of range", order.key);
    if (order.key == "own") continue; // beside them, not one of them
    if (order.key == "whole") {       // not planned: no squarer than what is, or not on the finer net
      whole = order.square;
      continue;
    }
    if (order.key == "planned") planned = order.square;
    squarest = std::min(squarest.value_or(*order.square), *order.square);
    if (order.key == "worst") least_square = order.square;
  }
  if (!planned || !squarest || !least_square) {
    c.tell("the planned order is not weighed by squareness");
    return;
  }
  if (std::abs(*squarest - p.squarest) > kRounded)
    c.tell("the squarest order is said to be at {}, of those compared it is at {}", p.squarest, *squarest);
  if (*planned > p.squarest + p.width + kRounded)
    c.tell("the planned order is at {} of the limit, more than {} above the squarest at {}", *planned,
           p.width, p.squarest);
  check_matters(c, p, *least_square);
  if (p.planned_finer > p.squarest_finer + p.width + kRounded)
    c.tell("on the finer net the planned order is at {} of the limit, the squarest at {}", p.planned_finer,
           p.squarest_finer);
  const bool whole_squarer = whole && *whole < *planned - p.width - kRounded;
  if (whole_squarer && !p.passed_over_finer)
    c.tell(
        "each seam in one go is at {} of the limit, as planned {}, and the finer net does not say otherwise",
        *whole, *planned);
  if (p.passed_over_finer && *p.passed_over_finer <= p.squarest_finer + p.width - kRounded && !whole_squarer)
    c.tell("an order is passed over that is as square as the squarest on the finer net, too");
}

} // namespace tacksquare::verify
