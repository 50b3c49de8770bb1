# Writes OUTPUT, a C++ source of the room ROOM that holds every NNNN_*.sql of SCHEMA_DIR as a string, in
# the order of their numbers, and current.sql where there is one. Run as:
# cmake -DROOM=... -DSCHEMA_DIR=... -DOUTPUT=... -P embed_sql.cmake
file(GLOB files ${SCHEMA_DIR}/[0-9][0-9][0-9][0-9]_*.sql)
list(SORT files)

set(source "#include \"${ROOM}/schema.h\"\n\nnamespace ${ROOM} {\n\n")
string(APPEND source "const std::vector<SchemaStep>& embedded_steps() {\n")
string(APPEND source "  static const std::vector<SchemaStep> steps = {\n")
foreach(file IN LISTS files)
  get_filename_component(name ${file} NAME_WE)
  string(SUBSTRING ${name} 0 4 number)
  math(EXPR version "1${number} - 10000")
  file(READ ${file} sql)
  string(APPEND source "      {${version}, R\"sql(${sql})sql\"},\n")
endforeach()
string(APPEND source "  };\n  return steps;\n}\n\n")
if(EXISTS ${SCHEMA_DIR}/current.sql)
  file(READ ${SCHEMA_DIR}/current.sql sql)
  string(APPEND source "std::string_view current_schema() {\n  return R\"sql(${sql})sql\";\n}\n\n")
endif()
string(APPEND source "}  // namespace ${ROOM}\n")
file(WRITE ${OUTPUT} "${source}")
