//! `chain-through-dwellings`

code! {
    "chain-through-dwellings"
    title: "A chain passes through dwellings to reach others" | "Eine Kette führt durch Wohnungen zu anderen",
    short: "chain through dwellings" | "Kette durch Wohnungen",
    message:
        "run {element} passes through other people's dwellings: {dwellings}"
        | "Strang {element} läuft durch fremde Wohnungen: {dwellings}",
    hint:
        "branch on the landing instead: a fault inside a dwelling waits for somebody to let you in"
        | "stattdessen auf dem Podest abzweigen: Ein Fehler in einer Wohnung wartet, bis jemand öffnet",
    measure:
        "The voltage at the last station that works: the break is at its terminals, or at those of the next one on the run, dark or not."
        | "Die Spannung an der letzten Station, die geht: Die Unterbrechung liegt an ihren Klemmen oder an denen der nächsten am Strang.",
    english:
        /// # What it checks
        /// With `chains_through_dwellings = false` under `[policy]`, that no cable goes on from a station in a
        /// dwelling to anything but further stations of the same dwelling.
        ///
        /// # Why it matters
        /// Who renovates cuts off the neighbours, and for each fault somebody has to be let into a flat that has
        /// none.
        ///
        /// # Example
        /// A-R1 goes in and out of A-101 to reach A-102.
        ///
        /// # What to do
        /// Place branch boxes in the stairwell and feed each dwelling from there, or change the policy.
    german:
        /// # Was geprüft wird
        /// Mit `chains_through_dwellings = false` unter `[policy]`: dass von einer Station in einer Wohnung keine
        /// Leitung weitergeht außer zu weiteren Stationen derselben Wohnung.
        ///
        /// # Warum es zählt
        /// Wer renoviert, legt die Nachbarn still, und für jede Störung muss jemand in eine Wohnung gelassen
        /// werden, die keine hat.
        ///
        /// # Beispiel
        /// A-R1 geht in A-101 hinein und wieder heraus, um A-102 zu erreichen.
        ///
        /// # Was zu tun ist
        /// Abzweigdosen im Treppenhaus setzen und jede Wohnung von dort speisen, oder die Vorgabe ändern.
}
