//! `terminator-not-needed`

code! {
    "terminator-not-needed"
    title: "A terminator in a family that needs none" | "Ein Abschluss in einer Familie, die keinen braucht",
    short: "terminator not needed" | "Abschluss unnötig",
    message:
        "run {element} has a terminator; the family {family} needs none"
        | "Strang {element} hat einen Abschluss; die Gerätefamilie {family} braucht keinen",
    hint: "remove it" | "entfernen",
    english:
        /// # What it checks
        /// Terminators in a family that knows none: that does not ask for them and gives no resistance of one. Where it gives one
        /// without asking for it, a terminator may be set wherever the signal is better for it.
        ///
        /// # Why it matters
        /// It takes signal level from everyone on the chain for nothing.
        ///
        /// # Example
        /// A-R3 says `terminator = true`; the family's datasheet knows no terminators.
        ///
        /// # What to do
        /// Leave it out, unless the family's maker advised one for this chain.
    german:
        /// # Was geprüft wird
        /// Abschlüsse in einer Gerätefamilie, die keine kennt: die sie nicht verlangt und keinen Widerstand dafür
        /// nennt. Nennt sie einen, ohne ihn zu verlangen, darf ein Abschluss gesetzt sein, wo das Signal davon
        /// besser wird.
        ///
        /// # Warum es zählt
        /// Er nimmt allen an der Kette Pegel für nichts.
        ///
        /// # Beispiel
        /// A-R3 sagt `terminator = true`; das Datenblatt der Familie kennt keine Abschlüsse.
        ///
        /// # Was zu tun ist
        /// Ihn weglassen, es sei denn, der Hersteller der Familie hat für diese Kette einen geraten.
}
