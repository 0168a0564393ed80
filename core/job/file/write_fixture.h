// The shop and what holds a box, as a job file says it. Parts of write_job.
#pragma once

#include "job/job.h"

#include <string>

namespace tacksquare {

void write_shop(std::string& out, const Shop& shop);
void write_fixture(std::string& out, const Job& job, const Fixture& fixture);

} // namespace tacksquare
