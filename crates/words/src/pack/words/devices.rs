//! Devices, settings and parts.

/// Hands these rows and those before them on to the next table.
macro_rules! devices {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        Accessory: "Accessory" | "Zubehör",
        AddressMissing: "no address: see the snag list" | "keine Adresse: siehe Mängelliste",
        AddressSet: "Address set" | "Adresse gesetzt",
        AudioDoorStation: "Door station, audio" | "Türstation, Audio",
        AudioExtension: "Indoor station, audio, extension" | "Innenstation, Audio, Nebenstelle",
        AudioStation: "Indoor station, audio" | "Innenstation, Audio",
        BoxKind: "Distributor or branch box" | "Verteiler oder Abzweigdose",
        BranchBox: "Branch box" | "Abzweigdose",
        Designation: "Designation" | "Bezeichnung",
        DevicesTitle: "Device schedule, in walking order" | "Geräteliste in Gehreihenfolge",
        Distributor: "Distributor" | "Verteiler",
        FieldBuilding: "building" | "Gebäude",
        FieldDwelling: "dwelling" | "Wohnung",
        FieldEntrance: "entrance" | "Eingang",
        FieldExtension: "extension" | "Nebenstelle",
        FieldManagement: "management" | "Zentrale",
        IndoorStation: "Indoor station" | "Innenstation",
        JumperFitted: "fitted" | "gesteckt",
        JumperOpen: "open" | "offen",
        KindSmall: "Small part" | "Kleinteil",
        LatchedAtPowerUp:
            "Settings are read at power-up only: switch the bus off and on after a change."
            | "Einstellungen werden nur beim Einschalten gelesen: nach einer Änderung den Bus aus- und einschalten.",
        LinePrice: "Price" | "Preis",
        LightSupplyPart: "Supply of a light's own" | "Eigenes Netzteil einer Leuchte",
        LockSupplyPart: "Supply of a lock's own" | "Eigenes Netzteil eines Schlosses",
        Needed: "Needed" | "Bedarf",
        NoAddress: "has no address" | "hat keine Adresse",
        NoPlace: "Without a place in the plan" | "Ohne Ort im Plan",
        NotInCatalogue: "not in the catalogue: to be chosen" | "nicht im Katalog: auszuwählen",
        Number: "No." | "Nr.",
        OrderedInDrums:
            "needed as the cut list cuts it, ordered by the drum, or to length where no drum is long enough; what stays on the drums is left over"
            | "Bedarf wie in der Zuschnittliste, bestellt nach Trommeln, oder nach Länge, wo keine Trommel reicht; was auf ihnen bleibt, ist übrig",
        PartsTitle: "Parts list" | "Stückliste",
        PlaceFitted: "Place, if another" | "Ort, falls anders",
        Reference: "Reference designation" | "Referenzkennzeichen",
        Serial: "Serial number" | "Seriennummer",
        Settings: "Switch positions" | "Schalterstellungen",
        Spares: "Spares" | "Reserve",
        TerminatorPart: "Terminator of the family" | "Abschluss der Gerätefamilie",
        ToOrder: "To order" | "Zu bestellen",
        UnitPrice: "Unit price" | "Einzelpreis",
        Version: "Version" | same,
        VideoDoorStation: "Door station, video" | "Türstation, Video",
        VideoExtension: "Indoor station, video, extension" | "Innenstation, Video, Nebenstelle",
        VideoStation: "Indoor station, video" | "Innenstation, Video",
        }
    };
}

pub(super) use devices;
