//! `exit-button-missing`

code! {
    "exit-button-missing"
    title: "No way to open from inside" | "Kein Weg, von innen zu öffnen",
    short: "no exit button" | "Ausgangstaster fehlt",
    message:
        "{element} cannot be opened from inside: its lock {lock} has no exit button and no mechanical way out"
        | "{element} lässt sich von innen nicht öffnen: Das Schloss {lock} hat weder Türöffnertaster noch mechanische Fluchtmöglichkeit",
    hint:
        "fit an exit button inside (exit_button = true), or a handle or bar that opens without power (mechanical_escape = true)"
        | "innen einen Türöffnertaster anbringen (exit_button = true), oder einen Drücker oder eine Stange, die ohne Strom öffnet (mechanical_escape = true)",
    measure:
        "Nothing with a meter: stand inside with the door shut and try to get out, with power and without."
        | "Nichts mit dem Messgerät: innen bei geschlossener Tür versuchen hinauszukommen, mit Strom und ohne.",
    english:
        /// # What it checks
        /// Locks that hold a door shut for those inside too, without an exit button: magnets, and every lock
        /// for which neither a handle or bar (`mechanical_escape`) nor an exit button is stated and which
        /// opens without power.
        ///
        /// # Why it matters
        /// Whoever is inside cannot get out without ringing somebody.
        ///
        /// # Example
        /// A magnet at the back door, released from the flats only.
        ///
        /// # What to do
        /// An exit button inside that acts on the lock's own circuit; on an escape route an emergency
        /// release besides.
    german:
        /// # Was geprüft wird
        /// Schlösser, die eine Tür auch für die drinnen zuhalten, ohne Türöffnertaster: Haltemagnete, und jedes
        /// Schloss, das ohne Strom öffnet und für das weder Drücker noch Stange (`mechanical_escape`) noch ein
        /// Türöffnertaster angegeben ist.
        ///
        /// # Warum es zählt
        /// Wer drinnen ist, kommt nicht hinaus, ohne jemanden zu rufen.
        ///
        /// # Beispiel
        /// Ein Haltemagnet an der Hintertür, nur aus den Wohnungen freigegeben.
        ///
        /// # Was zu tun ist
        /// Ein Türöffnertaster innen, der auf den Stromkreis des Schlosses selbst wirkt; an einem Fluchtweg dazu
        /// ein Nottaster.
}
