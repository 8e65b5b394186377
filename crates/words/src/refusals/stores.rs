//! The store of a folder, and the office page.

use crate::row::sentences;

sentences! {
    /// Why a store or the office page cannot be used.
    pub enum StoreRefusal<'a> {
        NoFolder: "there is no folder" | "es ist kein Ordner genannt",
        CannotStart: "cannot start" | "der Start ist nicht möglich",
        CannotAnswer: "cannot answer" | "die Seite kann nicht antworten",
        PortTaken { port: &'a str }:
            "port {port} cannot be taken; another may be free: --port 0"
            | "Port {port} ist nicht zu bekommen; ein anderer ist vielleicht frei: --port 0",
        NoPort: "no port can be taken" | "kein Port ist zu bekommen",
        Damaged { revision: &'a str, site: &'a str }:
            "revision {revision} of {site} is damaged: it does not match its checksum"
            | "Stand {revision} von {site} ist beschädigt: Er passt nicht zu seiner Prüfsumme",
        NoBackup { file: &'a str, version: &'a str }:
            "\"{file}\" is not a backup, or was made by a newer version (this one reads up to {version})"
            | "„{file}“ ist keine Sicherung oder von einer neueren Version (diese liest bis {version})",
        HasStore { folder: &'a str }:
            "\"{folder}\" has a store already; name another folder, or replace it with --replace (it is backed up first)"
            | "in „{folder}“ gibt es schon eine Ablage; einen anderen Ordner nennen oder sie mit --replace ersetzen (sie wird vorher gesichert)",
        NoNameFree: "no name is free" | "kein Name ist frei",
        NotBackedUp:
            "the store of the folder cannot be backed up; move latchline.db away, with latchline.db-wal if there is one, and run this again"
            | "die Ablage des Ordners lässt sich nicht sichern; latchline.db verschieben, mit latchline.db-wal, falls es das gibt, und noch einmal starten",
    }
}
