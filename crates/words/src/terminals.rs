//! Marks of terminals and of what is fitted beside a device, as labels, schedules and drawings print them where no catalogue states one.

use crate::row::words;

words! {
    /// The mark of terminals that belong together; where there are several such, a number follows it.
    pub enum TerminalMark {
        Alarm: "alarm" | "Meldung",
        Battery: "battery" | "Batterie",
        Coil: "coil" | "Spule",
        Command: "command" | "Befehl",
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

words! {
    /// What a designation says of something that the site file gives no name of its own: it stands behind the name of the door, run or
    /// supply and a slash, and where there are several such, a number follows it. Everything on paper says it from here.
    pub enum DesignationMark {
        Alarm: "alarm" | "Meldung",
        Battery: "battery" | "Batterie",
        Clamp: "clamp" | "Suppressordiode",
        Diode: "diode" | "Diode",
        DoorContact: "door" | "Türkontakt",
        EmergencyRelease: "release" | "Nottaster",
        ExitButton: "exit" | "Taster",
        FireContact: "fire" | "BMA",
        Joint: "joint" | "Klemme",
        Light: "light" | "Licht",
        Lock: "lock" | "Schloss",
        Module: "module" | "Modul",
        Nothing: "none" | "ohne",
        Relay: "relay" | "Relais",
        Resistor: "resistor" | "Widerstand",
        Supply: "supply" | "Netzteil",
        Surge: "surge" | "Ableiter",
        SurgeAtEnd: "surge-end" | "Ableiter-Ende",
        Varistor: "varistor" | "Varistor",
    }
}
