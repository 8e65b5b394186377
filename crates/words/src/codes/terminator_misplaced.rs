//! `terminator-misplaced`

code! {
    "terminator-misplaced"
    title: "A terminator where the chain does not end" | "Ein Abschluss, wo die Kette nicht endet",
    short: "terminator misplaced" | "Abschluss falsch gesetzt",
    message:
        "the terminator of run {element} is set at {stop}, where the chain does not end"
        | "Der Abschluss des Strangs {element} ist an {stop} gesetzt, wo die Kette nicht endet",
    hint: "set it on the last station" | "an der letzten Station setzen",
    measure:
        "With the power off, find where the chain ends, and where its terminator is set."
        | "Spannungsfrei suchen, wo die Kette endet und wo ihr Abschluss gesetzt ist.",
    english:
        /// # What it checks
        /// That a terminator is only set where a chain ends: on a run whose last stop is a station from which
        /// nothing goes on. Where an undivided chain has a second terminator, `terminator-doubled` says so
        /// instead.
        ///
        /// # Why it matters
        /// A terminator on the way takes half of the signal from all that lies beyond it, while the end stays
        /// open.
        ///
        /// # Example
        /// A-R3 ends at A-304 with a terminator; later A-R7 was led on from there to the loft.
        ///
        /// # What to do
        /// Take the terminator out and set it on the station where the chain ends now.
    german:
        /// # Was geprüft wird
        /// Dass ein Abschluss nur gesetzt ist, wo eine Kette endet: an einem Strang, dessen letzter Halt eine
        /// Station ist, von der nichts weitergeht. Hat eine ungeteilte Kette einen zweiten Abschluss, sagt das
        /// stattdessen `terminator-doubled`.
        ///
        /// # Warum es zählt
        /// Ein Abschluss unterwegs nimmt allem dahinter die Hälfte des Signals, während das Ende offen bleibt.
        ///
        /// # Beispiel
        /// A-R3 endet mit einem Abschluss an A-304; später wurde A-R7 von dort auf den Dachboden weitergeführt.
        ///
        /// # Was zu tun ist
        /// Den Abschluss herausnehmen und an der Station setzen, an der die Kette jetzt endet.
}
