//! `route-to-itself`

code! {
    "route-to-itself"
    title: "A route ends where it starts" | "Ein Weg endet, wo er beginnt",
    message: "the route starts and ends at \"{place}\"" | "Der Weg beginnt und endet bei „{place}“",
    hint: "correct one of its ends" | "eines der Enden berichtigen",
    english:
        /// A route leads from one place to another. Correct one of its ends.
    german:
        /// Ein Weg führt von einem Ort zu einem anderen. Eines der Enden berichtigen.
}
