//! `settings-contradict`

code! {
    "settings-contradict"
    title: "Two settings contradict each other" | "Einstellungen widersprechen sich",
    message: "{detail}" | "Einstellungen widersprechen sich: {detail}",
    hint: "change or remove one of the two" | "eine der beiden ändern oder entfernen",
    english:
        /// Both cannot be kept. Change or remove one of the two.
    german:
        /// Beide lassen sich nicht einhalten. Eine der beiden ändern oder entfernen.
}
