# Completion of boltwitness for bash, loaded by bash-completion. The program itself tells what may be
# typed ("boltwitness complete"): commands and options, and the words of the logbook at hand.

_boltwitness() {
  local cur words cword means word
  _get_comp_words_by_ref -n :=, -c cur -w words -i cword
  COMPREPLY=()
  while IFS=$'\t' read -r word means; do
    case $word in
      :files) compopt -o filenames -o default ;;
      :folders) compopt -o filenames -o dirnames ;;
      *) printf -v word %q "$word"; COMPREPLY+=("$word") ;;
    esac
  done < <("$1" complete "${words[@]:1:cword}" 2>/dev/null)
  [[ ${#COMPREPLY[@]} -ne 1 || ${COMPREPLY[0]} != */ ]] || compopt -o nospace
  __ltrim_colon_completions "$cur"
  # Where "=" parts words for bash, only what stands behind it is put in.
  [[ $cur != --*=* || $COMP_WORDBREAKS != *=* ]] || COMPREPLY=("${COMPREPLY[@]#"${cur%%=*}="}")
}

complete -F _boltwitness boltwitness
