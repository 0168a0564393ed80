// What goes with the opening, the brake and the readings, as a job file says it. Parts of write_job.
#pragma once

#include "job/job.h"

#include <string>

namespace tacksquare {

void write_incoming(std::string& out, const Incoming& incoming);
void write_brake(std::string& out, const Job& job, const Brake& brake);
void write_opening(std::string& out, const Job& job, const HardOpening& opening);
void write_measured(std::string& out, const Job& job, const MeasuredBox& measured);

} // namespace tacksquare
