// Where this checkout and its program lie.
#pragma once

#include <string>

std::string source_dir();
std::string program_path();
