/** `backup`: everything that is kept, as one file. */
import type { Command } from './command.ts';
import { DATA, folderFor, server, told } from './told.ts';

export const backup: Command = {
  help: {
    name: 'backup',
    operands: '',
    summary: 'writes all builds, photos and the shelf to one file, also while the app is open',
    teaches: [
      'The store is checked first, and the file is read back before it gets its name. It is a plain tar file: every revision of every build is in it as YAML, and SHA256SUMS lists the sums. A file that is there already is never overwritten.',
    ],
    options: [
      DATA,
      { name: 'out', value: 'FILE', help: 'name of the file (default: loomwright-backup-TIME.tar)' },
    ],
    examples: [['loomwright backup --out /media/stick/builds.tar', 'onto another disk']],
  },
  async run(args, { host }) {
    const stamp = new Date().toISOString().slice(0, 19).replaceAll(':', '-');
    try {
      const folder = await folderFor(args, host);
      const made = await (
        await server()
      ).backup(folder, args.value('out') ?? `loomwright-backup-${stamp}.tar`);
      host.out(
        `${made.path}\n${count(made.builds, 'build')}, ${count(made.items, 'item')} on the shelf, ${count(made.photos, 'photo')}; read back and right.\n`,
      );
      for (const photo of made.missing)
        host.err(`loomwright: the file of photo ${photo} is gone or damaged; it is not in the backup.\n`);
      return made.missing.length > 0 ? 1 : 0;
    } catch (error) {
      return told(error, host);
    }
  },
};

export const count = (number: number, what: string): string => `${number} ${what}${number === 1 ? '' : 's'}`;
