#include <iostream>

#include "cli/process_context.h"
#include "cli/run.h"

int main(int argc, char** argv) {
  auto context = cli::process_context();
  return cli::run({argv + (argc > 0 ? 1 : 0), argv + argc}, context);
}
