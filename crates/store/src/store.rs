//! The store: its sites, their revisions, and what reads them.

use crate::StoreError;
use crate::database::{Database, Statements};
use crate::revision::{Kind, Number, Revision, Signed, SiteEntry, SiteId, State};
use crate::rows::{
    New, REVISION_COLUMNS, head_number, insert, name_all, no_site, one_revision, revision, site_entry, state,
};
use crate::schema;
use crate::submission::{LONGEST_NAME, LONGEST_NOTE};
use crate::texts::{Texts, check_words};
use latchline_words::refusals::{KeptThing, NotKept, UnfitWords};
use std::sync::Arc;

/// How often a transaction is tried again when somebody else was quicker.
const MOST_TRIES: usize = 20;

/// All sites of a folder or a firm. A clone is the same store; it can be used from many threads.
#[derive(Debug, Clone)]
pub struct Store {
    database: Arc<dyn Database>,
}

impl Store {
    /// A store in a database, whose tables are made, or brought to the version of this program.
    ///
    /// # Errors
    /// If it is of a newer program, or cannot be written.
    pub fn new(database: impl Database + 'static) -> Result<Self, StoreError> {
        schema::migrate(&database)?;
        Ok(Store { database: Arc::new(database) })
    }

    /// A store that is only read and whose tables are of the version of this program.
    ///
    /// # Errors
    /// If they are of another.
    pub fn to_read(database: impl Database + 'static) -> Result<Self, StoreError> {
        let store = Store { database: Arc::new(database) };
        store.read(|statements| schema::check_version(statements, store.place()))?;
        Ok(store)
    }

    /// Where it is, as it is told.
    pub fn place(&self) -> &str {
        self.database.place()
    }

    /// One transaction that reads.
    pub(crate) fn read<T>(
        &self,
        work: impl Fn(&mut dyn Statements) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        let mut found = None;
        self.database.read(&mut |statements| {
            found = Some(work(statements)?);
            Ok(())
        })?;
        found.ok_or(StoreError::Overtaken)
    }

    /// One transaction that writes, after it has seen that the tables are still of this program's version; tried again where somebody
    /// else was quicker.
    pub(crate) fn write<T>(
        &self,
        work: impl Fn(&mut dyn Statements) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        let mut tries = 0;
        loop {
            let mut found = None;
            let done = self.database.write(&mut |statements| {
                schema::check_version(statements, self.place())?;
                found = Some(work(statements)?);
                Ok(())
            });
            tries += 1;
            match done {
                Err(StoreError::Overtaken) if tries < MOST_TRIES => {}
                Err(error) => return Err(error),
                Ok(()) => return found.ok_or(StoreError::Overtaken),
            }
        }
    }

    /// Takes a new site in; its first revision has the number 1.
    ///
    /// # Errors
    /// If the name is taken, or something cannot be kept.
    pub fn create_site(&self, name: &str, texts: &Texts, signed: &Signed) -> Result<SiteEntry, StoreError> {
        check_name(KeptThing::SiteName, name)?;
        check_signed(signed)?;
        self.write(|statements| {
            if statements.row("select id from site where name = $1", &[name.into()])?.is_some() {
                return Err(StoreError::NameTaken(name.to_string()));
            }
            let id = statements.row("select coalesce(max(id), 0) + 1 from site", &[])?;
            let id = SiteId(id.map_or(1, |row| row.integer(0)));
            statements.run(
                "insert into site (id, name, file, head, last) values ($1, $2, $3, 1, 1)",
                &[id.0.into(), name.into(), texts.site_path().into()],
            )?;
            let head = New { number: Number(1), parent: None, kind: Kind::First, of: None, texts, signed };
            let head = insert(statements, id, &head, None)?;
            Ok(SiteEntry { id, name: name.to_string(), file: texts.site_path().to_string(), head })
        })
    }

    /// Gives a site another name.
    ///
    /// # Errors
    /// If there is no such site, or the name is taken or cannot be kept.
    pub fn rename_site(&self, site: SiteId, name: &str) -> Result<(), StoreError> {
        check_name(KeptThing::SiteName, name)?;
        self.write(|statements| {
            let taken = statements
                .row("select id from site where name = $1 and id <> $2", &[name.into(), site.0.into()])?;
            if taken.is_some() {
                return Err(StoreError::NameTaken(name.to_string()));
            }
            match statements.run("update site set name = $1 where id = $2", &[name.into(), site.0.into()])? {
                0 => Err(no_site(site)),
                _ => Ok(()),
            }
        })
    }

    /// All sites by name, each with its newest revision.
    ///
    /// # Errors
    /// If they cannot be read.
    pub fn sites(&self) -> Result<Vec<SiteEntry>, StoreError> {
        let sql = format!(
            "select {REVISION_COLUMNS}, s.id, s.name, s.file from site s
             join revision r on r.site = s.id and r.number = s.head order by s.name"
        );
        self.read(|statements| {
            let mut sites: Vec<SiteEntry> = statements.rows(&sql, &[])?.iter().map(site_entry).collect();
            for site in &mut sites {
                name_all(statements, site.id, std::slice::from_mut(&mut site.head))?;
            }
            Ok(sites)
        })
    }

    /// The site with a name.
    ///
    /// # Errors
    /// If there is none.
    pub fn site_named(&self, name: &str) -> Result<SiteEntry, StoreError> {
        let found = self.sites()?.into_iter().find(|site| site.name == name);
        found.ok_or_else(|| {
            StoreError::not_there(&NotKept::Site { name: &latchline_finding::shown::name(name) })
        })
    }

    /// The newest revision of a site.
    ///
    /// # Errors
    /// If there is no such site, or what was kept is damaged.
    pub fn head(&self, site: SiteId) -> Result<State, StoreError> {
        self.read(|statements| {
            let number = head_number(statements, site)?;
            state(statements, self.place(), site, number)
        })
    }

    /// The number of the newest revision: cheap, to see whether something has come.
    ///
    /// # Errors
    /// If there is no such site.
    pub fn head_number(&self, site: SiteId) -> Result<Number, StoreError> {
        self.read(|statements| head_number(statements, site))
    }

    /// Any revision of a site.
    ///
    /// # Errors
    /// If there is no such site or revision, or what was kept is damaged.
    pub fn state(&self, site: SiteId, number: Number) -> Result<State, StoreError> {
        self.read(|statements| state(statements, self.place(), site, number))
    }

    /// The revisions of a site, the newest first, below a number if one is given; at most so many.
    ///
    /// # Errors
    /// If there is no such site.
    pub fn history(
        &self,
        site: SiteId,
        below: Option<Number>,
        most: usize,
    ) -> Result<Vec<Revision>, StoreError> {
        let sql = format!(
            "select {REVISION_COLUMNS} from revision r where r.site = $1 and r.number < $2
             order by r.number desc limit $3"
        );
        self.read(|statements| {
            head_number(statements, site)?;
            let below = below.map_or(i64::MAX, |number| number.0);
            let rows = statements.rows(&sql, &[site.0.into(), below.into(), (most as i64).into()])?;
            let mut revisions: Vec<Revision> = rows.iter().map(revision).collect();
            name_all(statements, site, &mut revisions)?;
            Ok(revisions)
        })
    }

    /// Gives a revision a name, by which it is found again; a name that is in use moves to it.
    ///
    /// # Errors
    /// If there is no such revision, or the name cannot be kept.
    pub fn name_state(
        &self,
        site: SiteId,
        number: Number,
        name: &str,
        signed: &Signed,
    ) -> Result<(), StoreError> {
        check_name(KeptThing::StateName, name)?;
        check_signed(signed)?;
        self.write(|statements| {
            one_revision(statements, site, number)?;
            statements.run(
                "insert into named (site, name, number, at_ms, by_whom) values ($1, $2, $3, $4, $5)
                 on conflict (site, name) do update set number = $3, at_ms = $4, by_whom = $5",
                &[
                    site.0.into(),
                    name.into(),
                    number.0.into(),
                    signed.at_ms.into(),
                    signed.by.as_str().into(),
                ],
            )?;
            Ok(())
        })
    }

    /// Takes a name away; the revision stays.
    ///
    /// # Errors
    /// If there is no such name.
    pub fn remove_name(&self, site: SiteId, name: &str) -> Result<(), StoreError> {
        self.write(|statements| {
            let sql = "delete from named where site = $1 and name = $2";
            match statements.run(sql, &[site.0.into(), name.into()])? {
                0 => Err(StoreError::not_there(&NotKept::State {
                    name: &latchline_finding::shown::name(name),
                })),
                _ => Ok(()),
            }
        })
    }

    /// The named states of a site: name and number, by name.
    ///
    /// # Errors
    /// If there is no such site.
    pub fn named_states(&self, site: SiteId) -> Result<Vec<(String, Number)>, StoreError> {
        self.read(|statements| {
            head_number(statements, site)?;
            let sql = "select name, number from named where site = $1 order by name";
            let rows = statements.rows(sql, &[site.0.into()])?;
            Ok(rows.iter().map(|row| (row.text(0), Number(row.integer(1)))).collect())
        })
    }
}

fn check_name(what: KeptThing, name: &str) -> Result<(), StoreError> {
    if name.trim().is_empty() {
        return Err(StoreError::unfit(&UnfitWords::Empty { what }));
    }
    check_words(what, name, LONGEST_NAME)
}

pub(crate) fn check_signed(signed: &Signed) -> Result<(), StoreError> {
    check_words(KeptThing::Author, &signed.by, LONGEST_NAME)?;
    check_words(KeptThing::Client, &signed.client, LONGEST_NAME)?;
    check_words(KeptThing::Engine, &signed.engine, LONGEST_NAME)?;
    check_words(KeptThing::Note, &signed.note, LONGEST_NOTE)
}
