#include <iostream>

#include "cli/run.h"
#include "terminal/process_context.h"

int main(int argc, char** argv) {
  auto context = terminal::process_context();
  return cli::run({argv + (argc > 0 ? 1 : 0), argv + argc}, context);
}
