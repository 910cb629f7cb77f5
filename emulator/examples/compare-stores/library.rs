//! Subject two: `sequential-storage` 8.0.2, a queue of records and a map of
//! settings.
//!
//! Used as its documentation says: `QueueStorage::push` with overwriting of old
//! data allowed, `QueueStorage::iter`, `MapStorage::store_item` and
//! `fetch_item`. It mounts nothing and repairs by itself within these calls
//! ("Corruption repair is automatic"); there is no other call for it, and none
//! for times of rest. An error is met by the same call again, which is up to
//! the judge. After an error that stays, the documentation leaves `erase_all`,
//! which loses everything; that is not tried, as a run has failed by then.
//!
//! Caches are off, so that nothing but the flash tells what was. Nothing is
//! popped or removed, so a plain `NorFlash` is asked for.
//!
//! What it promises: "You should only lose data when you give permission" and
//! "if the queue is full, the oldest data is removed to make space". A push
//! into a full queue erases the oldest page, so the records of the other pages
//! are demanded, less one for each cut, whose torn item takes its place up.

use core::future::Future;
use core::pin::pin;
use core::task::{Context, Poll, Waker};
use std::cell::RefCell;
use std::rc::Rc;

use embedded_storage::nor_flash as blocking;
use embedded_storage_async::nor_flash::{ErrorType, NorFlash, ReadNorFlash};
use emulated_board::flash::FlashError;
use emulator::rig::Dice;
use emulator::rig::store::chip::{Cells, Kept};
use sequential_storage::Error;
use sequential_storage::cache::{Cache, Uncached};
use sequential_storage::map::{MapConfig, MapStorage};
use sequential_storage::queue::{QueueConfig, QueueStorage};

use crate::subject::{Bus, Fault, Listed, Promise, RECORD_PAGES, Shape, Subject};

/// Bytes of a record and of a setting: with the library's header of 8 a record
/// is as long as one of ours where words are short.
const CONTENT: usize = 24;

/// A buffer for the longest item, key included, in words of up to 32 bytes.
const BUFFER: usize = 64;

type Queue<F> = QueueStorage<F, Cache<Uncached, Uncached, Uncached>>;
type Map<F> = MapStorage<u8, F, Cache<Uncached, Uncached, Uncached, u8>>;

pub(crate) struct Library<const WORD: usize, const PAGE: usize> {
    bus: Rc<RefCell<Bus<WORD, PAGE>>>,
    queue: Queue<Shared<WORD, PAGE>>,
    map: Map<Shared<WORD, PAGE>>,
}

/// The content `n`, all of it made from `n`.
fn content(n: u32) -> [u8; CONTENT] {
    let mut bytes = [0; CONTENT];
    let mut dice = Dice::of(u64::from(n), 0);
    for chunk in bytes.chunks_mut(8) {
        chunk.copy_from_slice(&dice.roll().to_le_bytes());
    }
    let (head, _) = bytes.split_at_mut(4);
    head.copy_from_slice(&n.to_le_bytes());
    bytes
}

fn number(bytes: &[u8]) -> Option<u32> {
    let n = u32::from_le_bytes(*bytes.first_chunk()?);
    (content(n) == bytes).then_some(n)
}

const fn padded(length: usize, word: usize) -> usize {
    length.next_multiple_of(word)
}

fn fault(why: &Error<FlashError>) -> Fault {
    Fault(format!("{why:?}"))
}

impl<const WORD: usize, const PAGE: usize> Subject<WORD, PAGE> for Library<WORD, PAGE> {
    const NAME: &'static str = "sequential-storage";

    fn promise(_: &Shape) -> Promise {
        // Two words of each page are marks.
        let item = padded(8, WORD) + padded(CONTENT, WORD);
        let a_page = (PAGE - 2 * WORD) / item;
        let pages = usize::try_from(RECORD_PAGES).unwrap_or(0) - 1;
        Promise { newest: a_page * pages, boot_costs: false }
    }

    fn commission(shape: &Shape) -> Result<Cells<WORD, PAGE>, Fault> {
        let pages = usize::try_from(RECORD_PAGES + shape.map_pages).unwrap_or(0);
        let mut library = Self::boot(Cells::erased(vec![0; pages * PAGE]), shape);
        block_on(library.queue.erase_all()).map_err(|why| fault(&why))?;
        block_on(library.map.erase_all()).map_err(|why| fault(&why))?;
        Ok(library.off())
    }

    fn boot(chip: Cells<WORD, PAGE>, shape: &Shape) -> Self {
        let page = u32::try_from(PAGE).unwrap_or(u32::MAX);
        let (middle, end) = (RECORD_PAGES * page, (RECORD_PAGES + shape.map_pages) * page);
        let bus = Rc::new(RefCell::new(Bus::new(chip, shape)));
        let shared = || Shared(Rc::clone(&bus));
        let queue = QueueStorage::new(shared(), QueueConfig::new(0..middle), Cache::new_uncached());
        let map = MapStorage::new(shared(), MapConfig::new(middle..end), Cache::new_uncached());
        Self { queue, map, bus }
    }

    fn off(self) -> Cells<WORD, PAGE> {
        let Self { bus, queue, map } = self;
        drop((queue, map));
        match Rc::try_unwrap(bus) {
            Ok(bus) => bus.into_inner().into_chip(),
            Err(_) => panic!("queue and map are gone, and something else holds the flash"),
        }
    }

    fn acts(&mut self) -> Vec<Kept> {
        self.bus.borrow().acts()
    }

    fn list(&mut self) -> Result<Listed, Fault> {
        let mut listed = Listed::default();
        let walk = async {
            let mut buffer = [0; BUFFER];
            let mut items = self.queue.iter().await?;
            while let Some(item) = items.next(&mut buffer).await? {
                listed.records.push(number(&item));
            }
            Ok(())
        };
        block_on(walk).map_err(|why| fault(&why))?;
        Ok(listed)
    }

    fn setting(&mut self, key: u8) -> Result<Option<u32>, Fault> {
        let mut buffer = [0; BUFFER];
        let found = block_on(self.map.fetch_item::<[u8; CONTENT]>(&mut buffer, &key));
        let found = found.map_err(|why| fault(&why))?;
        Ok(found.map(|bytes| number(&bytes).unwrap_or(u32::MAX)))
    }

    fn record(&mut self, n: u32) -> Result<(), Fault> {
        block_on(self.queue.push(&content(n), true)).map_err(|why| fault(&why))
    }

    fn set(&mut self, key: u8, n: u32) -> Result<(), Fault> {
        let mut buffer = [0; BUFFER];
        block_on(self.map.store_item(&mut buffer, &key, &content(n))).map_err(|why| fault(&why))
    }

    fn rest(&mut self) -> Result<(), Fault> {
        Ok(())
    }
}

/// One flash for queue and map.
struct Shared<const WORD: usize, const PAGE: usize>(Rc<RefCell<Bus<WORD, PAGE>>>);

impl<const WORD: usize, const PAGE: usize> ErrorType for Shared<WORD, PAGE> {
    type Error = FlashError;
}

impl<const WORD: usize, const PAGE: usize> ReadNorFlash for Shared<WORD, PAGE> {
    const READ_SIZE: usize = <Bus<WORD, PAGE> as blocking::ReadNorFlash>::READ_SIZE;

    async fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), FlashError> {
        blocking::ReadNorFlash::read(&mut *self.0.borrow_mut(), offset, bytes)
    }

    fn capacity(&self) -> usize {
        blocking::ReadNorFlash::capacity(&*self.0.borrow())
    }
}

impl<const WORD: usize, const PAGE: usize> NorFlash for Shared<WORD, PAGE> {
    const WRITE_SIZE: usize = WORD;
    const ERASE_SIZE: usize = PAGE;

    async fn erase(&mut self, from: u32, to: u32) -> Result<(), FlashError> {
        blocking::NorFlash::erase(&mut *self.0.borrow_mut(), from, to)
    }

    async fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), FlashError> {
        blocking::NorFlash::write(&mut *self.0.borrow_mut(), offset, bytes)
    }
}

/// Runs a future to its end. This flash never makes anybody wait.
fn block_on<F: Future>(future: F) -> F::Output {
    let mut future = pin!(future);
    let mut context = Context::from_waker(Waker::noop());
    loop {
        if let Poll::Ready(output) = future.as_mut().poll(&mut context) {
            return output;
        }
    }
}
