//! `measured-capacitance-differs`

code! {
    "measured-capacitance-differs"
    title: "The measured capacitance is not that of the stated length" | "Die gemessene Kapazität ist nicht die der angegebenen Länge",
    short: "capacitance differs" | "Kapazität weicht ab",
    message:
        "run {element} measures {capacitance}, as {value} of {cable} would; stated are {length}"
        | "Strang {element} misst {capacitance} wie {value} {cable}; angegeben sind {length}",
    label: "<{direction} than stated>" | "<{direction} als angegeben>",
    hint: "<look for {candidates:or}>" | "<suchen: {candidates:or}>",
    measure:
        "The capacitance once more with everything taken off and the far end open, and the loop resistance with it bridged: more capacitance at the same loop is a branch."
        | "Die Kapazität noch einmal, alles abgeklemmt und das ferne Ende offen, und den Schleifenwiderstand bei gebrücktem: mehr Kapazität bei gleicher Schleife ist ein Abzweig.",
    english:
        /// # What it checks
        /// The length that follows from a run's measured capacitance (far end open, electronics and everything
        /// beyond disconnected) and the cable's capacitance per metre, against the stated length. Told if
        /// the two differ by more than 15 % and by more than 5 m (common practice, no source). A cable
        /// without line constants is not judged.
        ///
        /// # Why it matters
        /// Capacitance measures length whatever the joints are like. Too much of it means that the cable goes
        /// somewhere else as well, or is wet; too little, that it is shorter or broken on the way.
        ///
        /// # Example
        /// A-R3 has 4.6 nF, which is 92 m of this cable; 38 m are stated. A dead spur leads to the cellar.
        ///
        /// # What to do
        /// Find the branch and disconnect it, or correct the lengths in the file.
    german:
        /// # Was geprüft wird
        /// Die Länge, die aus der gemessenen Kapazität eines Strangs (fernes Ende offen, Elektronik und alles
        /// dahinter abgeklemmt) und der Kapazität seiner Leitung je Meter folgt, gegen die angegebene. Gemeldet,
        /// wenn beide um mehr als 15 % und um mehr als 5 m abweichen (üblich, keine Quelle). Eine Leitung ohne
        /// Leitungskonstanten wird nicht beurteilt.
        ///
        /// # Warum es zählt
        /// Kapazität misst Länge, wie immer die Verbindungen sind. Zu viel heißt, dass die Leitung noch anderswohin
        /// führt oder nass ist; zu wenig, dass sie kürzer oder unterwegs unterbrochen ist.
        ///
        /// # Beispiel
        /// A-R3 hat 4,6 nF, das sind 92 m dieser Leitung; angegeben sind 38 m. Ein toter Stich führt in den Keller.
        ///
        /// # Was zu tun ist
        /// Den Abzweig suchen und abklemmen, oder die Längen in der Datei berichtigen.
}
