//! `wiring-loop`

code! {
    "wiring-loop"
    title: "The wiring feeds itself in a loop" | "Die Verdrahtung bildet einen Ring",
    message: "the wiring feeds itself in a loop: {members}" | "Die Verdrahtung speist sich im Kreis: {members}",
    label: "in the loop" | "im Kreis",
    hint:
        "cut the loop at one of these; rings are not solved"
        | "den Kreis an einem davon auftrennen; Ringe werden nicht gerechnet",
    english:
        /// Followed from stop to start, these runs come back to where they began: nothing outside the loop feeds it, or a ring is closed. Rings are not solved.
        ///
        /// Example: D1.1 feeds D2 and D2.1 feeds D1. The members are named in order; cut the loop at one of them.
    german:
        /// Vom Halt zum Anfang verfolgt, kommen diese Stränge dorthin zurück, wo sie begannen: Nichts außerhalb speist den Kreis, oder ein Ring ist geschlossen. Ringe werden nicht gerechnet.
        ///
        /// Beispiel: D1.1 speist D2, und D2.1 speist D1. Die Glieder sind der Reihe nach genannt; an einem davon auftrennen.
}
