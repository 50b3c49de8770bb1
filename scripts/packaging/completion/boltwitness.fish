# Completion of boltwitness for fish. The program itself tells what may be typed
# ("boltwitness complete"): commands and options, and the words of the logbook at hand.

function __boltwitness_words
    set -l typed (commandline -opc)
    for line in ($typed[1] complete $typed[2..] (commandline -ct) 2>/dev/null)
        switch $line
            case ':files'
                __fish_complete_path (commandline -ct)
            case ':folders'
                __fish_complete_directories (commandline -ct)
            case '*'
                echo $line
        end
    end
end

complete -c boltwitness -f -a '(__boltwitness_words)'
