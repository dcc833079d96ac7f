// What is written from the table of keys: the JSON Schema, and the tables of the guide.
#pragma once

#include <string>

namespace gelwright::test {

/// docs/recipe.schema.json as the table has it.
std::string recipe_schema();

/// docs/kitchen.schema.json likewise.
std::string kitchen_schema();

/// docs/goal.schema.json likewise.
std::string goal_schema();

/// The guide with each table between `<!-- keys: ID -->` and `<!-- end of keys -->` written anew.
std::string with_key_tables(const std::string& guide);

}  // namespace gelwright::test
