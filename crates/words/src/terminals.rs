//! Marks of terminals, as labels, schedules and drawings print them where no catalogue states one.

use crate::row::words;

words! {
    /// The mark of terminals that belong together; where there are several such, a number follows it.
    pub enum TerminalMark {
        Alarm: "alarm" | "Meldung",
        Battery: "battery" | "Batterie",
        Coil: "coil" | "Spule",
        Contact: "contact" | "Kontakt",
        DriveInput: "input" | "Eingang",
        Earth: "earth" | "Erde",
        Fuse: "fuse" | "Sich.",
        In: "in" | "Ein",
        Lamp: "lamp" | "Leuchte",
        Leads: "leads" | "Drähte",
        Light: "light" | "Licht",
        Line: "line" | "Leitung",
        Link: "link" | "Kopplung",
        Lock: "lock" | "Schloss",
        Mains: "mains" | "Netz",
        Modules: "modules" | "Module",
        Out: "out" | "Aus",
        Outside: "outside" | "außerhalb",
        Protected: "protected" | "Gerät",
        Relay: "relay" | "Relais",
        Screen: "screen" | "Schirm",
        Ways: "ways" | "Leiter",
    }
}
