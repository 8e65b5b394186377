//! `lock-output-overloaded`

code! {
    "lock-output-overloaded"
    title: "A lock draws more than the door station's output gives" | "Ein Schloss zieht mehr, als der Ausgang der Türstation gibt",
    short: "lock output overloaded" | "Ausgang überlastet",
    message:
        "the lock {lock} of {element} draws {value}; the output of {station} gives {limit}"
        | "Das Schloss {lock} von {element} zieht {value}; der Ausgang von {station} gibt {limit}",
    label: "<its {which}>" | "<sein {which}>",
    hint:
        "feed it from a supply of its own, through the relay"
        | "über das Relais aus eigenem Netzteil speisen",
    measure:
        "The current of the lock while it is released, a meter that holds the highest value in series with one of its wires; and whether the door station's screen or light dips."
        | "Den Strom des Schlosses während der Freigabe, ein Messgerät, das den höchsten Wert hält, in Reihe mit einer seiner Adern; und ob Bild oder Licht der Türstation einbricht.",
    english:
        /// # What it checks
        /// For locks that the door station feeds: the larger of the lock's current and its inrush against
        /// the current of the station's lock output. A station that does not state it is not judged.
        ///
        /// # Why it matters
        /// The output is often a capacitor behind a small converter: overloaded, the strike clicks once and
        /// the station restarts in the middle of the call.
        ///
        /// # Example
        /// A motor lock starts with 1.6 A on an output of 0.6 A.
        ///
        /// # What to do
        /// Give the lock a supply of its own and use the station's relay, or take a lock that draws less.
    german:
        /// # Was geprüft wird
        /// Bei Schlössern, die die Türstation speist: den größeren von Schlossstrom und Einschaltstrom gegen den
        /// Strom des Schlossausgangs der Station. Eine Station, die ihn nicht nennt, wird nicht beurteilt.
        ///
        /// # Warum es zählt
        /// Der Ausgang ist oft ein Kondensator hinter einem kleinen Wandler: Überlastet klickt der Türöffner
        /// einmal, und die Station startet mitten im Ruf neu.
        ///
        /// # Beispiel
        /// Ein Motorschloss läuft mit 1,6 A an einem Ausgang für 0,6 A an.
        ///
        /// # Was zu tun ist
        /// Dem Schloss ein eigenes Netzteil geben und das Relais der Station benutzen, oder ein Schloss nehmen, das
        /// weniger zieht.
}
