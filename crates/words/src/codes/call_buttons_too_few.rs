//! `call-buttons-too-few`

code! {
    "call-buttons-too-few"
    title: "Fewer call buttons than dwellings" | "Weniger Ruftaster als Wohnungen",
    short: "too few call buttons" | "zu wenige Ruftaster",
    message:
        "{element} has {value} call buttons for {limit} dwellings and no keypad"
        | "{element} hat {value} Ruftaster für {limit} Wohnungen und kein Tastenfeld",
    hint:
        "a button for each dwelling, or a keypad; if {model} itself has a display or keys that call by number, accept it with that reason"
        | "ein Taster je Wohnung oder ein Tastenfeld; hat {model} selbst eine Anzeige oder Tasten, die nach Nummer rufen, mit diesem Grund akzeptieren",
    measure:
        "Nothing with a meter: count the dwellings on the plate beside the buttons, and try to call one that has none."
        | "Nichts mit dem Messgerät: die Wohnungen auf dem Schild neben den Tastern zählen und versuchen, eine ohne Taster zu rufen.",
    english:
        /// # What it checks
        /// Entrances with button modules: that there is a button for each dwelling that the entrance calls, or a module on which a number is
        /// keyed in or a name is looked up. An entrance without button modules calls from the door station's own directory and is not looked
        /// at; what no directory holds is `directory-too-small`.
        ///
        /// # Why it matters
        /// The directory of a door station counts what it can be taught, not what a visitor can press. Whoever has no button is called by
        /// nobody, and it shows when the name plates are put in.
        ///
        /// # Example
        /// One strip of four buttons at a door that calls fourteen houses.
        ///
        /// # What to do
        /// Add button modules, or a keypad. Where the door station itself has a display or keys, accept the finding with that reason.
    german:
        /// # Was geprüft wird
        /// Eingänge mit Tastenmodulen: dass für jede Wohnung, die der Eingang ruft, ein Taster da ist, oder ein Modul, an dem eine Nummer
        /// eingetippt oder ein Name gesucht wird. Ein Eingang ohne Tastenmodule ruft aus dem eigenen Verzeichnis der Türstation und wird nicht
        /// betrachtet; was kein Verzeichnis fasst, ist `directory-too-small`.
        ///
        /// # Warum es zählt
        /// Das Verzeichnis einer Türstation zählt, was sie lernen kann, nicht, was ein Besucher drücken kann. Wer keinen Taster hat, den ruft
        /// niemand, und es zeigt sich, wenn die Namensschilder eingesetzt werden.
        ///
        /// # Beispiel
        /// Ein Streifen mit vier Tastern an einer Tür, die vierzehn Häuser ruft.
        ///
        /// # Was zu tun ist
        /// Tastenmodule hinzufügen oder ein Tastenfeld. Hat die Türstation selbst eine Anzeige oder Tasten, den Befund mit diesem Grund
        /// akzeptieren.
}
