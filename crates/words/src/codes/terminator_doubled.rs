//! `terminator-doubled`

code! {
    "terminator-doubled"
    title: "More than one terminator on an undivided chain" | "Mehr als ein Abschluss an einer ungeteilten Kette",
    short: "two terminators" | "zwei Abschlüsse",
    message:
        "the chain on port {port} has more than one terminator: on runs {runs}"
        | "Die Kette am Abgang {port} hat mehr als einen Abschluss: an den Strängen {runs}",
    hint: "leave one, on the last station" | "einen lassen, an der letzten Station",
    measure:
        "With the power off, count the terminators of the chain: one, on its last station."
        | "Spannungsfrei die Abschlüsse der Kette zählen: einer, an der letzten Station.",
    english:
        /// # What it checks
        /// That a chain that does not divide has one terminator at most.
        ///
        /// # Why it matters
        /// Two terminators in parallel halve the impedance at which the line is closed and take away signal
        /// level from everyone.
        ///
        /// # Example
        /// The chain was extended; the new end has its terminator, and the old one was left in.
        ///
        /// # What to do
        /// Leave the one at the far end and take the other out.
    german:
        /// # Was geprüft wird
        /// Dass eine Kette, die sich nicht teilt, höchstens einen Abschluss hat.
        ///
        /// # Warum es zählt
        /// Zwei Abschlüsse parallel halbieren den Widerstand, mit dem die Leitung abgeschlossen ist, und nehmen
        /// allen Pegel weg.
        ///
        /// # Beispiel
        /// Die Kette wurde verlängert; das neue Ende hat seinen Abschluss, und der alte blieb gesetzt.
        ///
        /// # Was zu tun ist
        /// Den am fernen Ende lassen und den anderen herausnehmen.
}
