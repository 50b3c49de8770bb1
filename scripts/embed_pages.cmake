# Writes OUTPUT, a C++ source that holds every page of PAGES_DIR as a string, in the order of their
# names. Run as: cmake -DPAGES_DIR=... -DOUTPUT=... -P embed_pages.cmake
file(GLOB files ${PAGES_DIR}/*.md)
list(SORT files)

set(source "#include \"manual/page.h\"\n\nnamespace manual {\n\n")
string(APPEND source "const std::vector<Page>& pages() {\n")
string(APPEND source "  static const std::vector<Page> pages = {\n")
foreach(file IN LISTS files)
  get_filename_component(name ${file} NAME_WE)
  file(READ ${file} text)
  string(APPEND source "      {\"${name}\", R\"page(${text})page\"},\n")
endforeach()
string(APPEND source "  };\n  return pages;\n}\n\n}  // namespace manual\n")
file(WRITE ${OUTPUT} "${source}")
