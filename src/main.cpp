#include "cli/network_program.h"
#include "cli/process.h"

int main(int argc, char** argv) { return cli::run_process(argc, argv, cli::network_program(argv)); }
