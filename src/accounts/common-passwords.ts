/**
 * Beginnings that people choose most often, without the digits and signs they add. From memory, and short: the check
 * also drops what is put before and after, and reads `4` as `a`, so that it refuses some thousands of spellings.
 */
const COMMON_WORDS = `
abc abcd admin administrator access amanda america andrea andrew angel anthony apple arsenal ashley asdf asdfgh asdfghjkl
autumn azerty babygirl bailey banana baseball basketball batman beautiful biteme blink butterfly changeme charlie cheese
chelsea chocolate computer cookie corvette cowboy daniel default diamond dolphin donald dragon eagle elephant family
fishing flower football freedom friend friends garden george ginger golfer google guest hammer hannah harley heather
hello hockey hottie house hunter iloveyou internet jasmine jennifer jessica jordan joshua justin killer koi koipond
letmein liverpool login london loveme lovely maggie manager marina marlboro martin master matrix matthew merlin michael
michelle minecraft monkey morgan mother mustang naruto nicole ninja nothing orange pa pass passport passwd passwort
password patrick peanut pepper phoenix pokemon pond ponds pretty princess purple qazwsx qwer qwert qwerty qwertyuiop
qwertz rainbow ranger robert root samantha samsung scooter secret service shadow soccer sparky spring starwars steelers
summer sunshine superman target tarnkeep taylor tennis test testing thomas thunder tigger tinkerbell trustno turtle
unknown user vanessa viking water welcome whatever winner winter yankees yellow zaq zxcvbn zxcvbnm
`
  .trim()
  .split(/\s+/);
const WORDS = new Set(COMMON_WORDS);
const LETTER_OF_SIGN: Readonly<Record<string, string>> = {
  '0': 'o',
  '1': 'i',
  '3': 'e',
  '4': 'a',
  '5': 's',
  '7': 't',
  $: 's',
  '@': 'a',
  '!': 'i',
};
/** From this length on a common beginning no longer makes the whole easy to guess. */
const LONG_ENOUGH = 16;
const ROWS = ['01234567890', 'abcdefghijklmnopqrstuvwxyz', 'qwertyuiop', 'asdfghjkl', 'zxcvbnm', '1qaz2wsx3edc4rfv'];

/** Why a password is one of the first that are tried, or null. */
export function commonness(password: string, ownAddress: string): string | null {
  const lower = password.toLowerCase();
  const ownName = ownAddress.toLowerCase().split('@')[0] ?? '';
  if (new Set(lower).size <= 2) return 'It repeats one or two characters.';
  if (isRow(lower)) return 'It follows the keyboard, the alphabet or the digits.';
  if (ownName.length >= 4 && lower.includes(ownName) && lower.length < ownName.length + 8) {
    return 'It is mostly your own mail address.';
  }
  if (lower.length < LONG_ENOUGH && spellings(lower).some((word) => WORDS.has(word))) {
    return 'It is among the passwords that are tried first.';
  }
  return null;
}

/** The word inside: as written, and with signs read as letters; twice the same word counts once. */
function spellings(lower: string): string[] {
  const bare = lower.replace(/^[^a-z]+|[^a-z]+$/g, '');
  const readAsLetters = (text: string) => text.replace(/[013457$@!]/g, (sign) => LETTER_OF_SIGN[sign]!);
  const inner = [bare, readAsLetters(bare), readAsLetters(lower).replace(/^[^a-z]+|[^a-z]+$/g, '')];
  return inner.flatMap((word) => [
    word,
    word.slice(0, word.length / 2).repeat(2) === word ? word.slice(0, word.length / 2) : word,
  ]);
}

function isRow(lower: string): boolean {
  return ROWS.some((row) => {
    const backwards = [...row].reverse().join('');
    return [row, backwards].some((line) => line.repeat(3).includes(lower));
  });
}
