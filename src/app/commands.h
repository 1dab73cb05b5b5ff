#pragma once
// One function a command, each in a file of its own.
#include "weatherstruck/app/command.h"

namespace weatherstruck::app {

Command job_check_command();
Command job_blank_command();
Command quantities_command();
Command van_command();
Command light_command();
Command limits_command();
Command forecast_show_command();
Command plan_command();
Command morning_command();
Command why_command();
Command helps_command();
Command try_command();
Command job_add_command();
Command me_command();
Command job_ask_command();
Command job_turn_command();
Command job_copy_command();
Command job_list_command();
Command job_show_command();
Command log_command();
Command now_command();
Command sheet_command();
Command invoice_command();
Command when_command();
Command credit_command();
Command calendar_command();
Command export_command();
Command pack_command();
Command quote_command();
Command unpack_command();
Command pace_command();

}  // namespace weatherstruck::app
