//! `route-without-length`

code! {
    "route-without-length"
    title: "A route has no length" | "Ein Weg hat keine Länge",
    message: "the route from {from} to {to} has 0 m" | "Der Weg von {from} nach {to} hat 0 m",
    english:
        /// A route of 0 m joins two places as if they were one: no cable is counted between them.
        ///
        /// Write the length along the way, or make one place of the two.
    german:
        /// Ein Weg von 0 m verbindet zwei Orte, als wären sie einer: Dazwischen zählt keine Leitung.
        ///
        /// Die Länge entlang des Wegs schreiben, oder aus beiden Orten einen machen.
}
