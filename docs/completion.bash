# Made from the command table by scripts/update-golden; change the table.
_weatherstruck() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}
  local i w first='' second=''
  for ((i = 1; i < COMP_CWORD; i++)); do
    w=${COMP_WORDS[i]}
    case ${COMP_WORDS[i-1]} in --forecast | --now | --seed) continue ;; esac
    [[ $w == -* ]] && continue
    if [[ -z $first ]]; then first=$w; elif [[ -z $second ]]; then second=$w; fi
  done
  COMPREPLY=()
  case $before in
    --forecast) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
    --now | --seed) return ;;
  esac
  local options='--now --seed --json --no-color --help -h --version'
  case "$first $second" in
    'me '*) options+=' --all --contact --into' ;;
    'pace '*) options+=' --forget' ;;
    'job ask') options+=' --all' ;;
    'job add') options+=' --replace' ;;
    'limits '*) options+=' --set --page' ;;
    'forecast show') options+=' --forecast --service --beside --offline' ;;
    'plan '*) options+=' --schedules --weathers --forecast --service --beside --offline' ;;
    'when '*) options+=' --past --from --to --every' ;;
    'helps '*) options+=' --forecast --service --beside --offline' ;;
    'quote '*) options+=' --html --pdf --csv --price --deposit --distance --good-for --without --leave-open --keep --agreed --yes --mine' ;;
    'try '*) options+=' --forecast --service --beside --offline' ;;
    'morning '*) options+=' --forecast --service --beside --offline' ;;
    'now '*) options+=' --forecast --service --beside --offline' ;;
    'why '*) options+=' --forecast --service --beside --offline' ;;
    'log '*) options+=' --text --yes --correct --strike --photo --line' ;;
    'sheet '*) options+=' --html --svg --for-customer --with --forecast --service --beside --offline' ;;
    'invoice '*) options+=' --issue --yes --hours --used --deposit --leave-open --show --series --html --pdf --csv --ubl --with' ;;
    'credit '*) options+=' --reason --line --for-good --again --issue --yes --series --of-series --html --pdf --csv --ubl --with' ;;
    'calendar '*) options+=' --file --forecast --service --beside --offline' ;;
    'export '*) options+=' --file --csv' ;;
    'pack '*) options+=' --without-lost' ;;
  esac
  if [[ $word == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
    return
  fi
  case $first in
    '') mapfile -t COMPREPLY < <(compgen -W 'me pace job quantities van light limits forecast plan when helps quote try morning now why log sheet invoice credit calendar export pack unpack' -- "$word"); return ;;
    job) [[ -z $second ]] && { mapfile -t COMPREPLY < <(compgen -W 'ask blank check add list show turn copy' -- "$word"); return; } ;;
    forecast) [[ -z $second ]] && { mapfile -t COMPREPLY < <(compgen -W 'show' -- "$word"); return; } ;;
  esac
  mapfile -t COMPREPLY < <(compgen -f -- "$word")
}
complete -o filenames -F _weatherstruck weatherstruck
