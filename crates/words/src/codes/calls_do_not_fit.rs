//! `calls-do-not-fit`

code! {
    "calls-do-not-fit"
    title: "More calls than fit into an hour" | "Mehr Rufe, als in eine Stunde passen",
    message:
        "{calls} calls an hour of {duration} each do not fit into an hour with {at_once} at once: at most {most} do"
        | "{calls} Rufe je Stunde zu {duration} passen bei {at_once} gleichzeitig nicht in eine Stunde, höchstens {most}",
    label: "at most {most}" | "höchstens {most}",
    english:
        /// `calls_per_hour` times `call_duration` (60 s if it is not stated) is more than an hour for each of the calls that the family allows at
        /// once. A battery was then asked for more than can happen.
        ///
        /// Example: 400 calls an hour of a minute each, with two at once: 120 fit.
    german:
        /// `calls_per_hour` mal `call_duration` (ohne Angabe 60 s) ist mehr als eine Stunde für jeden der Rufe, die die Familie gleichzeitig
        /// zulässt. Von der Batterie wäre mehr verlangt, als geschehen kann.
        ///
        /// Beispiel: 400 Rufe je Stunde zu einer Minute, zwei gleichzeitig: 120 passen.
}
