//! `load-falls-in-use`

code! {
    "load-falls-in-use"
    title: "A station that draws less in use than in standby" | "Eine Station, die in Betrieb weniger zieht als in Ruhe",
    message:
        "{element}: \"{key}\" is {written}, less than {standby} in standby"
        | "{element}: „{key}“ ist {written}, weniger als {standby} in Ruhe",
    label: "less than in standby" | "weniger als in Ruhe",
    hint: "hold both against the data sheet" | "beide mit dem Datenblatt vergleichen",
    measure:
        "The current of one such station alone, in standby and while it talks."
        | "Den Strom einer solchen Station allein, in Ruhe und im Gespräch.",
    english:
        /// # What it checks
        /// That a station draws no less while it rings or talks than while it does nothing, be it given as power, as current or as
        /// resistance. Where the two are given unalike they are compared at the station's least and highest voltage (one and a half times
        /// the least if none is stated), and told if it draws less at both.
        ///
        /// # Why it matters
        /// It is nearly always a slip: figures exchanged, or milliamperes where amperes are meant. The worst state is then reckoned
        /// with too little.
        ///
        /// # Example
        /// `standby = "85 mA"`, `talking = "22 mA"` where the data sheet has 220 mA.
        ///
        /// # What to do
        /// Correct the one that is wrong. A station that does draw less in use may stay as it is: it is judged by what is written.
    german:
        /// # Was geprüft wird
        /// Dass eine Station beim Rufen und Sprechen nicht weniger zieht als in Ruhe, als Leistung, als Strom oder als
        /// Widerstand angegeben. Verschieden angegebene werden bei kleinster und höchster Spannung der Station verglichen (ohne Angabe dem
        /// Anderthalbfachen der kleinsten) und gemeldet, wenn sie bei beiden weniger zieht.
        ///
        /// # Warum es zählt
        /// Fast immer ein Versehen: Werte vertauscht, oder Milliampere statt Ampere. Der ungünstigste Zustand wird dann mit zu wenig
        /// gerechnet.
        ///
        /// # Beispiel
        /// `standby = "85 mA"`, `talking = "22 mA"`, wo das Datenblatt 220 mA hat.
        ///
        /// # Was zu tun ist
        /// Den falschen Wert berichtigen. Eine Station, die in Betrieb wirklich weniger zieht, kann bleiben: Geurteilt wird nach dem,
        /// was geschrieben ist.
}
