#include "cli/process.h"
#include "network/here.h"

int main(int argc, char** argv) { return cli::run_process(argc, argv, network::here()); }
