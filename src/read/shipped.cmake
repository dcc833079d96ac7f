# Writes the shipped recipes and their kitchen into a C++ file: cmake -D OUT=... -D FOLDER=... -D
# NAMES=a.json;b.json -P shipped.cmake
set(code "// Made by src/read/shipped.cmake.\n#include \"read/shipped_texts.hpp\"\n\n")
string(APPEND code "namespace gelwright::detail {\n\nconst std::vector<ShippedText>& shipped_texts() {\n")
string(APPEND code "  static const std::vector<ShippedText> texts = {\n")
foreach(name IN LISTS NAMES)
  file(READ "${FOLDER}/${name}" text)
  string(APPEND code "      {\"${name}\", R\"json(${text})json\"},\n")
endforeach()
string(APPEND code "  };\n  return texts;\n}\n\n}  // namespace gelwright::detail\n")
file(WRITE "${OUT}" "${code}")
