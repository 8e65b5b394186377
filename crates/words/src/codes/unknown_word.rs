//! `unknown-word`

code! {
    "unknown-word"
    title: "This word is not one of the choices" | "Dieses Wort steht nicht zur Wahl",
    message: "\"{word}\" is not one of the choices for \"{key}\"" | "„{word}“ steht für „{key}“ nicht zur Wahl",
    label: "choose {valid:or}" | "zur Wahl: {valid:or}",
    hint: "<did you mean {nearest:or}?>" | "<gemeint {nearest:or}?>",
    english:
        /// The key accepts a few words only; they are shown.
        ///
        /// Example: `feed = "battery"` at a lock.
    german:
        /// Der Schlüssel nimmt nur wenige Wörter; sie werden gezeigt.
        ///
        /// Beispiel: `feed = "battery"` bei einem Schloss.
}
