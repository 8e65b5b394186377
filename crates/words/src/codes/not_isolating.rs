//! `not-isolating`

code! {
    "not-isolating"
    title: "Only an isolating box has a signal link" | "Nur ein trennender Verteiler hat einen Signaleingang",
    message:
        "box {name} has no signal link: it is not an isolating box"
        | "Verteiler {name} hat keinen Signaleingang: Er ist kein trennender Verteiler",
    label: "no such link" | "diesen Eingang gibt es nicht",
    hint:
        "name the box alone to reach its input"
        | "den Verteiler allein nennen, um seinen Eingang zu erreichen",
    english:
        /// `D1.link` is the signal link of an isolating box. Other boxes have one input, named by the box alone.
    german:
        /// `D1.link` ist der Signaleingang eines trennenden Verteilers. Andere haben einen Eingang, den der Name des Verteilers allein nennt.
}
