// What the reader says of each document of standard input, one a line: "good", or the problems.
#include <iostream>
#include <string>

#include "gelwright/error.hpp"
#include "gelwright/read.hpp"

int main() {
  for (std::string line; std::getline(std::cin, line);) {
    try {
      gelwright::read_recipe(line, "");
      std::cout << "good\n";
    } catch (const gelwright::InputError& error) {
      for (const gelwright::Problem& each : error.problems())
        std::cout << each.where << ": " << each.what << " | ";
      std::cout << '\n';
    }
  }
}
