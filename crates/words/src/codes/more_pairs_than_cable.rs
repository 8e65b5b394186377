//! `more-pairs-than-cable`

code! {
    "more-pairs-than-cable"
    title: "More pairs in parallel than the cable has" | "Mehr parallele Paare, als die Leitung hat",
    short: "too few pairs" | "zu wenige Paare",
    message:
        "<the cable to the lock {lock} of >{element} uses {value} pairs in parallel; {cable} has {limit}"
        | "<Die Leitung zum Schloss {lock} von >{element} nutzt {value} Paare parallel; {cable} hat {limit}",
    hint:
        "correct pairs, or take a cable with more pairs"
        | "pairs berichtigen, oder eine Leitung mit mehr Paaren nehmen",
    english:
        /// # What it checks
        /// That no run and no cable to a lock uses more pairs in parallel than its cable has.
        ///
        /// # Why it matters
        /// The voltages were computed with conductors that are not there.
        ///
        /// # Example
        /// `pairs = 2` on a cable with a single pair.
        ///
        /// # What to do
        /// Correct `pairs`, choose a cable with more pairs, or state a cable of the site's own for two cables
        /// pulled side by side.
    german:
        /// # Was geprüft wird
        /// Dass kein Strang und keine Leitung zu einem Schloss mehr Paare parallel benutzt, als seine Leitung hat.
        ///
        /// # Warum es zählt
        /// Die Spannungen sind mit Adern gerechnet, die es nicht gibt.
        ///
        /// # Beispiel
        /// `pairs = 2` auf einer Leitung mit einem Paar.
        ///
        /// # Was zu tun ist
        /// `pairs` berichtigen, eine Leitung mit mehr Paaren wählen, oder für zwei nebeneinander gezogene Leitungen
        /// eine eigene Leitung der Anlage angeben.
}
