//! `no-such-port`

code! {
    "no-such-port"
    title: "The box has no such port" | "Der Verteiler hat keinen solchen Abgang",
    message: "box {name} has no port {port}" | "Verteiler {name} hat keinen Abgang {port}",
    label: "no such port" | "diesen Abgang gibt es nicht",
    hint: "its ports are numbered 1 to {ports}" | "seine Abgänge sind von 1 bis {ports} nummeriert",
    english:
        /// Ports count from 1 to the number that the catalogue gives.
        ///
        /// Example: `from = "D1.5"` of a box with four ports.
    german:
        /// Abgänge zählen von 1 bis zu der Zahl, die der Katalog nennt.
        ///
        /// Beispiel: `from = "D1.5"` bei einem Verteiler mit vier Abgängen.
}
