//! `existing-run-not-measured`

code! {
    "existing-run-not-measured"
    title: "An existing cable that was not measured" | "Eine vorhandene Leitung wurde nicht gemessen",
    short: "old cable not measured" | "Altleitung ungemessen",
    message:
        "run {element} is an existing cable whose {missing} was not measured"
        | "Strang {element} ist eine vorhandene Leitung, nicht gemessen: {missing}",
    hint:
        "measure with the electronics disconnected, and write measured = { ... }"
        | "mit abgeklemmter Elektronik messen und measured = { ... } eintragen",
    measure:
        "With everything taken off it: the loop with the far end bridged, the capacitance with it open, and the insulation of the conductors to each other and to earth."
        | "Alles abgeklemmt: die Schleife bei gebrücktem fernem Ende, die Kapazität bei offenem, und die Isolation der Adern gegeneinander und gegen Erde.",
    english:
        /// # What it checks
        /// Cables that are already in the walls (`existing = true`) and of which the loop or the insulation was not
        /// measured.
        ///
        /// # Why it matters
        /// Nobody knows what lies in an old wall: its gauge, its way, its joints under the plaster, the spur to
        /// a flat that was divided. Two readings with the electronics disconnected settle most of it before
        /// anything is ordered.
        ///
        /// # Example
        /// A-R5 uses the old bell cable; nothing was measured.
        ///
        /// # What to do
        /// Measure the loop with the far end short-circuited and the insulation at 250 V with everything
        /// disconnected, and write both under `measured`. The capacitance with the far end open tells the length.
    german:
        /// # Was geprüft wird
        /// Leitungen, die schon in der Wand liegen (`existing = true`) und deren Schleife oder Isolation nicht
        /// gemessen wurde.
        ///
        /// # Warum es zählt
        /// Niemand weiß, was in einer alten Wand liegt: welcher Durchmesser, welcher Weg, welche Verbindungen unter
        /// Putz, welcher Stich in eine geteilte Wohnung. Zwei Messungen mit abgeklemmter Elektronik klären das
        /// meiste, bevor etwas bestellt wird.
        ///
        /// # Beispiel
        /// A-R5 benutzt die alte Klingelleitung; nichts wurde gemessen.
        ///
        /// # Was zu tun ist
        /// Die Schleife mit kurzgeschlossenem fernem Ende und die Isolation mit 250 V messen, alles abgeklemmt, und
        /// beides unter `measured` eintragen. Die Kapazität bei offenem fernem Ende sagt die Länge.
}
