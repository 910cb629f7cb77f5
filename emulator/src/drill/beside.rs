//! What a drill file names beside itself: site files and memory sticks.

use std::collections::BTreeMap;
use std::io;
use std::path::PathBuf;
use std::sync::Arc;

use crate::carry::{Contents, OfNoUse, Stick};
use crate::document::{Field, LoadError, Read, Table, Wrong};
use crate::plain;
use crate::site::Site;

/// The word of a `load` that takes what lies on the stick.
pub(super) const NEWEST: &str = "newest";

/// Gives what a drill names; the names are paths from its file.
pub trait Beside {
    /// A site.
    ///
    /// # Errors
    /// [`LoadError`] if it cannot be read, or is refused.
    fn site(&mut self, name: &str) -> Result<Arc<Site>, LoadError>;

    /// What lies on a memory stick.
    ///
    /// # Errors
    /// [`OfNoUse`] if the folder cannot be read, or holds no timetable files.
    fn stick(&mut self, name: &str) -> Result<Contents, OfNoUse>;
}

/// Where no stick can be plugged in.
impl<F: FnMut(&str) -> Result<Arc<Site>, LoadError>> Beside for F {
    fn site(&mut self, name: &str) -> Result<Arc<Site>, LoadError> {
        self(name)
    }

    fn stick(&mut self, _: &str) -> Result<Contents, OfNoUse> {
        Err(OfNoUse::Folder(io::Error::from(io::ErrorKind::NotFound)))
    }
}

/// The folder that the drill file lies in.
pub(super) struct Folder(pub(super) PathBuf);

impl Beside for Folder {
    fn site(&mut self, name: &str) -> Result<Arc<Site>, LoadError> {
        Site::load(&self.0.join(name)).map(Arc::new)
    }

    fn stick(&mut self, name: &str) -> Result<Contents, OfNoUse> {
        Stick::at(&self.0.join(name)).contents()
    }
}

/// What the steps of a drill name, read.
#[derive(Default)]
pub(super) struct Named {
    sites: BTreeMap<String, Arc<Site>>,
    sticks: BTreeMap<String, Arc<Contents>>,
}

/// Why what a step names is not there.
pub(super) enum Missing {
    /// The drill is wrong there.
    Wrong(Box<Wrong>),
    /// A site cannot be had.
    Site(LoadError),
}

impl From<Box<Wrong>> for Missing {
    fn from(wrong: Box<Wrong>) -> Self {
        Self::Wrong(wrong)
    }
}

/// The site that a field names by its path from the drill file.
pub(super) fn site_named(field: &Field<'_>, beside: &mut dyn Beside) -> Result<Arc<Site>, Missing> {
    beside.site(field.text()?).map_err(|why| match why {
        LoadError::Unreadable { path, why } => {
            let what = format!("{} cannot be read: {why}.", plain::path(&path));
            let remedy = "Name a site file by its path from this drill file.";
            Missing::Wrong(Wrong::new(&field.at(), what, remedy).here("this path"))
        }
        refused @ LoadError::Refused(_) => Missing::Site(refused),
    })
}

impl Named {
    /// Reads what the steps of `file` name, each once.
    pub(super) fn read(file: &Table<'_>, beside: &mut dyn Beside) -> Result<Self, Missing> {
        let mut named = Self::default();
        let Some(steps) = file.get("step") else { return Ok(named) };
        let mut plugged = false;
        for step in steps.tables("a [[step]]")? {
            if let Some(stick) = step.get("stick") {
                named.read_stick(&stick, beside)?;
                plugged = true;
            }
            let Some(load) = step.get("load") else { continue };
            match load.text()? {
                NEWEST if plugged => {}
                NEWEST => {
                    let what = "There is no stick to load from yet.";
                    let remedy = "Plug one in, in a [[step]] before: stick = \"../stick\".";
                    return Err(Wrong::new(&load.at(), what, remedy).into());
                }
                name if named.sites.contains_key(name) => {}
                name => {
                    let site = site_named(&load, beside)?;
                    named.sites.insert(name.to_owned(), site);
                }
            }
        }
        Ok(named)
    }

    fn read_stick(&mut self, field: &Field<'_>, beside: &mut dyn Beside) -> Read<()> {
        let name = field.text()?;
        if self.sticks.contains_key(name) {
            return Ok(());
        }
        let contents = beside.stick(name).map_err(|why| {
            let what = format!("The folder `{name}` is no use as a memory stick: {why}.");
            let remedy = "Name a folder with sealed timetable files, by its path from this file.";
            Wrong::new(&field.at(), what, remedy).here("this folder")
        })?;
        self.sticks.insert(name.to_owned(), Arc::new(contents));
        Ok(())
    }

    /// A site that a step loads.
    pub(super) fn site(&self, field: &Field<'_>) -> Read<Arc<Site>> {
        let found = self.sites.get(field.text()?).map(Arc::clone);
        found.ok_or_else(|| Wrong::new(&field.at(), "No such site.", "Name a site file."))
    }

    /// A stick that a step plugs in.
    pub(super) fn stick(&self, field: &Field<'_>) -> Read<Arc<Contents>> {
        let found = self.sticks.get(field.text()?).map(Arc::clone);
        found.ok_or_else(|| Wrong::new(&field.at(), "No such stick.", "Name a folder."))
    }
}
