# Completion of boltwitness for fish. The program itself tells what may be typed
# ("boltwitness complete"): commands and options, and the words of the logbook at hand.

function __boltwitness_words
    set -l typed (commandline -opc)
    # What is typed of the last word, as the program would be given it, be its quote still open.
    set -l begun
    for quote in '' '"' "'"
        set begun (string unescape -- (commandline -ct)$quote)
        and break
    end
    # Of "--log=g" the shell finds files that begin with g.
    set -l option (string match -r -- '^--[^=]*=' "$begun")
    set -l value (string replace -r -- '^--[^=]*=' '' "$begun")
    for line in ($typed[1] complete $typed[2..] "$begun" 2>/dev/null)
        switch $line
            case ':files'
                for file in (__fish_complete_path "$value")
                    echo "$option$file"
                end
            case ':folders'
                for folder in (__fish_complete_directories "$value")
                    echo "$option$folder"
                end
            case '*'
                echo $line
        end
    end
end

complete -c boltwitness -f -a '(__boltwitness_words)'
