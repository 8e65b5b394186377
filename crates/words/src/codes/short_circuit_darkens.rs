//! `short-circuit-darkens`

code! {
    "short-circuit-darkens"
    title: "A short on one run darkens other dwellings" | "Ein Kurzschluss an einem Strang macht andere Wohnungen dunkel",
    short: "short darkens others" | "Kurzschluss stört andere",
    message:
        "a short on run {run} of {element} puts {count:other dwelling|other dwellings} out of action: {dwellings}"
        | "Ein Kurzschluss am Strang {run} von {element} legt {count:weitere Wohnung|weitere Wohnungen} still: {dwellings}",
    label: "<{by} {acts}>" | "<{by} {acts}>",
    hint:
        "take ports with a limit of their own, first for the runs most at risk, such as outdoors"
        | "Abgänge mit eigener Begrenzung nehmen, zuerst für die gefährdetsten Stränge, etwa im Freien",
    measure:
        "Which outputs are dark, and the voltage at the supply. Then take the runs off one by one, outdoor runs first: the one with which the rest returns has the short."
        | "Welche Abgänge dunkel sind, und die Spannung am Netzteil. Dann die Stränge einzeln abklemmen, die im Freien zuerst: Der, mit dem der Rest wiederkommt, hat den Kurzschluss.",
    english:
        /// # What it checks
        /// For a short at the far end of every run, which dwellings go dark besides those on the run and behind it: because the supply rather than
        /// a port limits or trips, or because the voltage sinks for all. One finding a supply, about the run that takes most with it.
        ///
        /// # Why it matters
        /// One nail through the cable of a bin store can take every flat off the air. Whoever looks for the fault should
        /// know that it need not be where it is dark.
        ///
        /// # Example
        /// A short on A-gate puts 24 dwellings out of action, since only A-PS limits the current.
        ///
        /// # What to do
        /// Ports with a limit of their own towards whatever is most exposed: outdoor runs first.
    german:
        /// # Was geprüft wird
        /// Für einen Kurzschluss am fernen Ende jedes Strangs: welche Wohnungen außer denen am Strang und dahinter
        /// ausfallen, weil das Netzteil statt eines Abgangs begrenzt oder abschaltet, oder weil die Spannung für
        /// alle einbricht. Ein Befund je Netzteil, über den Strang, der am meisten mitnimmt.
        ///
        /// # Warum es zählt
        /// Ein Nagel durch die Leitung eines Müllraums kann jede Wohnung stilllegen. Wer den Fehler sucht, sollte
        /// wissen, dass er nicht dort sein muss, wo es dunkel ist.
        ///
        /// # Beispiel
        /// Ein Kurzschluss auf A-gate nimmt 24 Wohnungen mit, weil nur A-PS den Strom begrenzt.
        ///
        /// # Was zu tun ist
        /// Abgänge mit eigener Begrenzung zu dem hin, was am meisten gefährdet ist: zuerst die Stränge im Freien.
}
