/** Passphrases of twelve characters and more that everybody tries first: keyboard runs, doubled common ones, song lines. */
export const COMMON_PASSPHRASES: ReadonlySet<string> = new Set(
  `123456789012 1234567890123 12345678901234 123456789123 1q2w3e4r5t6y 1qaz2wsx3edc 1qaz2wsx3edc4rfv qwertyuiop12 qwertyuiop123
  qwertyuiopas qwertyuiopasdf qwertyuiopasdfghjkl qwerty123456 qwerty12345678 asdfghjkl123 asdfghjklzxc zxcvbnm12345 password1234 password12345
  password123456 passwordpassword password1password administrator changeme1234 letmeinletmein letmein12345 iloveyou1234 iloveyouiloveyou welcome12345
  welcomewelcome abcdefghijkl abcdefghijklm abc123abc123 abcd1234abcd1234 trustno1trustno1 correcthorsebatterystaple tobeornottobe
  maytheforcebewithyou hibernation hibernation1 tortoisetortoise tortoise1234 tortoise12345 mytortoise123 turtleturtle testudotestudo`.split(
    /\s+/,
  ),
);
