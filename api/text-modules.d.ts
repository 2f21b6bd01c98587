/** Text that the build takes in as it stands. */
declare module "*.txt" {
  const text: string;
  export default text;
}
