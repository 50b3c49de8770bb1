# Completion of boltwitness for bash, loaded by bash-completion. The program itself tells what may be
# typed ("boltwitness complete"): commands and options, and the words of the logbook at hand.

# A word as the program would be given it: REPLY, and in `quote` the quote that is still open.
_boltwitness_unquoted() {
  local rest=$1 char
  REPLY='' quote=''
  while [[ $rest ]]; do
    char=${rest:0:1} rest=${rest:1}
    case $quote$char in
      \"\" | \'\') quote='' ;;
      \" | \') quote=$char ;;
      \\) REPLY+=${rest:0:1} rest=${rest:1} ;;
      \"\\) [[ $rest == [\"\\\`\$]* ]] && char=${rest:0:1} rest=${rest:1}
            REPLY+=$char ;;
      *) REPLY+=$char ;;
    esac
  done
}

# A word as it stands behind the quote that is open, or alone: REPLY.
_boltwitness_quoted() {
  REPLY=$1
  case $quote in
    \') REPLY=${REPLY//\'/\'\\\'\'} ;;
    \") REPLY=${REPLY//\\/\\\\} REPLY=${REPLY//\"/\\\"} REPLY=${REPLY//\$/\\\$} REPLY=${REPLY//\`/\\\`} ;;
    *) printf -v REPLY %q "$1" ;;
  esac
}

_boltwitness() {
  local cur words cword word means quote REPLY
  local -a typed=()
  _get_comp_words_by_ref -n :=, -c cur -w words -i cword
  for word in "${words[@]:1:cword}"; do
    _boltwitness_unquoted "$word"
    typed+=("$REPLY")
  done
  COMPREPLY=()
  while IFS=$'\t' read -r word means; do
    case $word in
      :files) compopt -o filenames -o default ;;
      :folders) compopt -o filenames -o dirnames ;;
      # Where "=" parts words for bash, only what stands behind it is put in.
      *) [[ $cur != --*=* || $COMP_WORDBREAKS != *=* ]] || word=${word#"${cur%%=*}="}
         _boltwitness_quoted "$word"
         COMPREPLY+=("$REPLY") ;;
    esac
  done < <("$1" complete "${typed[@]}" 2>/dev/null)
  [[ ${#COMPREPLY[@]} -ne 1 || ${COMPREPLY[0]} != */ ]] || compopt -o nospace
  [[ $quote ]] || __ltrim_colon_completions "$cur"
}

complete -F _boltwitness boltwitness
