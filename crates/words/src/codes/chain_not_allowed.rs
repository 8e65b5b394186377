//! `chain-not-allowed`

code! {
    "chain-not-allowed"
    title: "Stations on a chain in a family that is wired as a star" | "Stationen in einer Kette, wo die Familie Sternverdrahtung verlangt",
    short: "chain not allowed" | "Kette nicht erlaubt",
    message:
        "run {element} chains {stations}; the family {family} is wired as a star"
        | "Strang {element} kettet {stations}; die Gerätefamilie {family} wird sternförmig verdrahtet",
    hint: "give every station its own port" | "jeder Station einen eigenen Abgang geben",
    english:
        /// # What it checks
        /// In a family without chains (`chains = false`), that no cable goes on from a station: each station
        /// then needs a way of its own from a port or branch box.
        ///
        /// # Why it matters
        /// Such families tell their stations apart by the port, or cannot match the impedance of more than one
        /// station to a pair.
        ///
        /// # Example
        /// A-R1 leads to A-101 and on to A-102.
        ///
        /// # What to do
        /// Give each station its own port, or choose a family that can be looped in and out.
    german:
        /// # Was geprüft wird
        /// In einer Gerätefamilie ohne Ketten (`chains = false`): dass von keiner Station eine Leitung weitergeht;
        /// jede braucht dann einen eigenen Weg von einem Abgang oder einer Abzweigdose.
        ///
        /// # Warum es zählt
        /// Solche Familien unterscheiden ihre Stationen nach dem Abgang, oder können nicht mehr als eine Station an
        /// ein Paar anpassen.
        ///
        /// # Beispiel
        /// A-R1 führt zu A-101 und weiter zu A-102.
        ///
        /// # Was zu tun ist
        /// Jeder Station einen eigenen Abgang geben, oder eine Familie wählen, die sich durchschleifen lässt.
}
