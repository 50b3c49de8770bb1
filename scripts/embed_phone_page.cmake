# Writes OUTPUT, a C++ source that holds every file of PAGE_DIR as a string under its name. A literal
# may be some 64 kB long, so that long files are put together from pieces. Run as:
# cmake -DPAGE_DIR=... -DOUTPUT=... -P embed_phone_page.cmake
file(GLOB files ${PAGE_DIR}/*)
list(SORT files)

set(source "#include \"phone/page_file.h\"\n\nnamespace phone {\n\n")
string(APPEND source "const std::vector<PageFile>& page_files() {\n")
string(APPEND source "  static const std::vector<PageFile> files = {\n")
foreach(file IN LISTS files)
  get_filename_component(name ${file} NAME)
  file(READ ${file} content HEX)
  string(LENGTH "${content}" length)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "\\\\x\\1" content "${content}")
  math(EXPR bytes "${length} / 2")
  # Four characters a byte; a piece every 4,000 bytes.
  string(REGEX REPLACE "(................................................................)" "\\1\"\n       \"" content "${content}")
  string(APPEND source "      {\"${name}\", std::string_view(\n       \"${content}\", ${bytes})},\n")
endforeach()
string(APPEND source "  };\n  return files;\n}\n\n}  // namespace phone\n")
file(WRITE ${OUTPUT} "${source}")
