//! `unknown-key`

code! {
    "unknown-key"
    title: "This key is not known here" | "Dieser Schlüssel ist hier nicht bekannt",
    message:
        "the key \"{key}\" is not known< in {table}>"
        | "Der Schlüssel „{key}“ ist< hier ({table})> nicht bekannt",
    label: "not a key< of {table}>" | "kein Schlüssel< hier ({table})>",
    hint:
        "<did you mean {nearest:or}?><its keys are {choices}>"
        | "<gemeint {nearest:or}?><die Schlüssel sind {choices}>",
    english:
        /// Every key is checked, because a misspelt one that is silently ignored would leave its value out of the calculation.
        ///
        /// Example: `lenght = "14 m"` in a run. The nearest valid keys are shown; all of them are on the reference page.
    german:
        /// Jeder Schlüssel wird geprüft, denn ein falsch geschriebener, der stillschweigend übergangen würde, ließe seinen Wert aus der Rechnung.
        ///
        /// Beispiel: `lenght = "14 m"` in einem Strang. Die nächstliegenden Schlüssel werden gezeigt; alle stehen auf der Referenzseite.
}
